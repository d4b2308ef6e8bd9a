package org.padtrue.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.panel.Stage;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.words.Also;
import org.padtrue.report.words.KeyWords;
import org.padtrue.report.words.LimitWords;
import org.padtrue.report.words.MeasuringVerdict;
import org.padtrue.report.words.ResultWords;
import org.padtrue.report.words.Risks;
import org.padtrue.report.words.Show;

/** The answer: what to change, what to expect of it, what is at risk, and the cautions. */
final class AnswerSection {
  private static final int RISKS_SHOWN = 15;

  /** Heading of a cell where the page is too narrow for the table's head. */
  private static final String NARROW = "data-heading";

  private AnswerSection() {}

  static void into(Html h, FirstArticleResult r) {
    header(h, r);
    h.open("section", "class", "answer");
    h.element("h2", "What to change");
    h.element("p", ResultWords.headline(r), "class", "lead");
    trims(h, r);
    for (String sentence : Also.sentences(r)) {
      h.element("p", sentence);
    }
    h.close("section");
    if (!r.trims().isEmpty()) {
      signs(h);
    }
    h.open("section");
    h.element("h2", r.trims().isEmpty() ? "What is seen" : "What to expect of it");
    gain(h, r);
    h.close("section");
    risks(h, r);
    cautions(h, r);
  }

  private static void header(Html h, FirstArticleResult r) {
    h.open("header");
    h.element("p", "First article", "class", "kicker");
    h.element("h1", r.job().name());
    FirstArticleResult.Counts c = r.counts();
    String panels = r.panels().size() == 1 ? "1 panel" : r.panels().size() + " panels";
    h.element(
        "p",
        String.format(
            Locale.ROOT,
            "%s, %s side, measured on %s against %s. %,d placements: %,d measured, %,d used, %,d"
                + " left out, %,d not measured.",
            panels,
            AnalysisJson.word(r.job().side()),
            stage(r.job().stage()),
            against(r),
            c.nominal(),
            c.measured(),
            c.used(),
            c.excluded(),
            c.missing()));
    h.open("p", "class", "quiet").text("Measured in ");
    h.text(String.join(", ", r.articles())).text(".").close("p");
    h.close("header");
  }

  private static String stage(Stage s) {
    return switch (s) {
      case TAPE -> "tape";
      case PASTE -> "wet paste";
      case REFLOWED -> "the reflowed panel";
    };
  }

  private static String against(FirstArticleResult r) {
    return switch (r.job().measurement().reference()) {
      case LANDS -> "the lands";
      case FIDUCIALS -> "the fiducials";
      case MACHINE -> "the machine's own axes";
    };
  }

  private static void trims(Html h, FirstArticleResult r) {
    if (r.trims().isEmpty()) {
      return;
    }
    boolean squareness = r.trims().stream().anyMatch(t -> Double.isFinite(t.addSquareness()));
    h.open("div", "class", "table").open("table", "class", "trims");
    h.element(
        "caption", "Values to ADD to what is programmed now; what takes out most comes first");
    h.open("thead").open("tr");
    for (String name : List.of("", "What", "x", "y", "Rotation")) {
      h.element("th", name, "scope", "col");
    }
    if (squareness) {
      h.element("th", "Squareness", "scope", "col");
    }
    for (String name : List.of("Frame", "Takes out")) {
      h.element("th", name, "scope", "col");
    }
    h.close("tr").close("thead").open("tbody");
    int number = 0;
    List<ResultWords.Trim> said = ResultWords.trims(r);
    for (ResultWords.Trim t : said) {
      trim(h, ++number, t, squareness);
    }
    h.close("tbody").close("table").close("div");
    h.element("p", ResultWords.SHEET, "class", "quiet");
    String rounding = ResultWords.rounding(r);
    if (!rounding.isEmpty()) {
      h.element("p", capital(rounding));
    }
  }

  private static void trim(Html h, int number, ResultWords.Trim t, boolean squareness) {
    h.open("tr", "class", "said");
    h.element("td", Integer.toString(number), "class", "number");
    h.open("th", "scope", "row").text(t.where());
    if (!t.from().isEmpty()) {
      h.element("span", "now " + t.from() + " mm", "class", "small");
    }
    h.close("th");
    value(h, "x", t.x(), "");
    value(h, "y", t.y(), "");
    value(h, "Rotation", t.rotation(), t.turn());
    if (squareness) {
      value(h, "Squareness", t.squareness(), "");
    }
    h.open("td", "class", "frame", NARROW, "Frame: ").text(t.frame());
    h.element("span", ResultWords.frame(t.frame()), "class", "small");
    if (!t.about().isEmpty()) {
      h.element("span", "about " + t.about(), "class", "small");
    }
    h.close("td");
    h.element(
        "td", t.takesOut().replaceFirst("^takes out ", ""), "class", "why", NARROW, "Takes out: ");
    h.close("tr");
    h.open("tr").element("td", "", "class", "number");
    h.element("td", t.why(), "class", "why", "colspan", squareness ? "7" : "6");
    h.close("tr");
  }

  private static void value(Html h, String name, ResultWords.Amount v, String turn) {
    boolean empty = v.value().isEmpty() && turn.isEmpty();
    h.open("td", "class", empty ? "value empty" : "value", NARROW, name);
    if (!turn.isEmpty()) {
      h.element("span", "turn by " + turn, "class", "big");
    }
    boolean none = v.value().equals("0");
    if (!v.value().isEmpty() && !(none && !turn.isEmpty())) {
      h.element("span", v.value(), "class", none ? "none" : "big");
    }
    if (!v.millimetres().isEmpty()) {
      h.element("span", v.millimetres(), "class", "small");
    }
    if (!v.error().isEmpty()) {
      h.element("span", v.error(), "class", "small");
    }
    h.close("td");
  }

  private static void signs(Html h) {
    h.open("section", "class", "signs");
    SignFigure.into(h);
    h.open("div");
    h.element("h3", "Is the sign right on this machine?");
    h.element("p", ResultWords.signTrial());
    h.close("div").close("section");
  }

  private static void gain(Html h, FirstArticleResult r) {
    Prediction p = r.prediction();
    h.open("dl", "class", "figures");
    figure(h, "as measured", Show.um(p.seen()), "RMS of the placements used");
    if (!r.trims().isEmpty()) {
      figure(h, "next panel, nothing changed", Show.um(p.nextUntrimmed()), "expected RMS");
      figure(
          h, "next panel, trims entered", Show.um(p.nextTrimmed()), "expected RMS, after rounding");
    }
    figure(h, "scatter alone", Show.um(p.floor()), "no offset goes below this");
    h.close("dl");
    h.element("p", capital(Show.words(MeasuringVerdict.of(r).sentence())) + ".", "class", "note");
  }

  private static void figure(Html h, String name, String value, String note) {
    h.open("div");
    h.element("dt", name);
    h.open("dd");
    h.element("span", value + " \u00b5m", "class", "figure");
    h.element("span", note, "class", "small");
    h.close("dd").close("div");
  }

  private static void risks(Html h, FirstArticleResult r) {
    Acceptance a = r.acceptance();
    h.open("section");
    h.element("h2", "Placements at risk");
    if (a.judged() == 0) {
      h.element("p", "Not judged: no part type of this job has lands or a tolerance.");
      h.close("section");
      return;
    }
    h.element("p", ResultWords.risk(r));
    h.element("p", LimitWords.summary(r.job()), "class", "quiet");
    List<PlacementResult> worst = Risks.worst(r, RISKS_SHOWN);
    riskTable(r, worst).into(h);
    long more = Risks.count(r) - worst.size();
    if (more > 0) {
      h.element("p", "And " + more + " more; all are in residuals.csv.", "class", "quiet");
    }
    List<String> cured = Risks.cured(r);
    if (!cured.isEmpty()) {
      h.element(
          "p",
          "Outside now and put right by the trims: " + KeyWords.some(cured, RISKS_SHOWN) + ".");
    }
    if (!a.notJudgedParts().isEmpty()) {
      h.element(
          "p",
          "Not judged, for want of lands or a tolerance: "
              + KeyWords.some(a.notJudgedParts(), 20)
              + ".",
          "class",
          "quiet");
    }
    h.close("section");
  }

  private static HtmlTable riskTable(FirstArticleResult r, List<PlacementResult> worst) {
    boolean trims = !r.trims().isEmpty();
    HtmlTable t =
        new HtmlTable(
            trims ? "At risk with the trims entered, the worst first" : "The worst first");
    t.text("Placement", "Part type", "Now").numbers("Margin to limit");
    if (trims) {
      t.numbers("with the trims");
    }
    t.numbers("Chance to be outside next time");
    if (trims) {
      t.numbers("with the trims");
    }
    t.text("Note");
    for (PlacementResult p : worst) {
      List<String> cells = new ArrayList<>();
      cells.add(Risks.name(r, p));
      cells.add(p.part());
      cells.add(
          p.verdict().equals("outside") ? "\u2717\u00a0outside" : KeyWords.verdict(p.verdict()));
      cells.add(Show.length(p.margin()));
      if (trims) {
        cells.add(Show.length(p.marginAfterTrim()));
      }
      cells.add(Show.percent(p.probabilityOutside()));
      if (trims) {
        cells.add(Show.percent(p.probabilityOutsideAfterTrim()));
      }
      cells.add(p.used() ? "" : Risks.note(r, p));
      t.row(cells.toArray(new String[0]));
    }
    return t;
  }

  private static void cautions(Html h, FirstArticleResult r) {
    h.open("aside", "class", "cautions", "aria-label", "Cautions");
    h.element("h3", "Before anything is changed");
    h.open("ul");
    for (String caution : ResultWords.cautions(r)) {
      h.element("li", caution);
    }
    h.close("ul").close("aside");
  }

  private static String capital(String s) {
    return s.isEmpty() ? s : Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }
}
