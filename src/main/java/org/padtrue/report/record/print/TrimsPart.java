package org.padtrue.report.record.print;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.check.TrimCheck;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.record.Figures;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.MovedPlacement;
import org.padtrue.report.words.ResultWords;

/** Corrections that the article led to, and whether a later one shows that they held. */
final class TrimsPart {
  private TrimsPart() {}

  static void write(Markup m, FirstArticleRecord r) {
    m.element("h2", r.check() == null ? "Trims" : "Trims and their check", "id", "trims");
    if (r.trims().isEmpty()) {
      m.element("p", "The analysis changes nothing: every value is left as it is.");
    } else {
      m.element(
          "p",
          "Values to ADD, as the analysis of this article gives them. They act on panels placed"
              + " after it; the results in this record are those before. Whoever enters a value"
              + " initials it.");
      trims(m, r.trims());
    }
    if (!r.moved().isEmpty()) {
      moved(m, r.moved());
    }
    StoredCheck c = r.check();
    if (c != null) {
      check(m, c);
    } else if (!r.trims().isEmpty()) {
      m.element("p", "Not checked on a later article in this record.");
    }
  }

  /** Deviations from the design, each with a line for who approved it. */
  private static void moved(Markup m, List<MovedPlacement> moved) {
    m.element("h2", "Moved placements: deviations from the design", "id", "moved");
    m.element(
        "p",
        "Added to the nominal positions, in the placement list's own axes of an unturned board, so"
            + " that neighbours keep their gap.");
    m.open("table", "class", "long rows").open("thead").open("tr");
    m.element("th", "Placement", "style", "width: 14%");
    m.element("th", "added to x", "style", "width: 13%", "class", "n");
    m.element("th", "added to y", "style", "width: 13%", "class", "n");
    m.element("th", "added to rotation", "style", "width: 13%", "class", "n");
    m.element("th", "Reason", "style", "width: 25%");
    m.element("th", "Approved by, date");
    m.close("tr").close("thead").open("tbody");
    for (MovedPlacement p : moved) {
      m.open("tr").element("td", p.ref());
      m.element("td", Figures.signed(p.add().x(), 4) + " mm", "class", "n");
      m.element("td", Figures.signed(p.add().y(), 4) + " mm", "class", "n");
      m.element("td", Figures.signed(p.add().rotation(), 2) + "\u00b0", "class", "n");
      m.element("td", p.reason()).element("td", "").close("tr");
    }
    m.close("tbody").close("table");
  }

  private static void trims(Markup m, List<TrimLine> trims) {
    boolean squareness = trims.stream().anyMatch(t -> Double.isFinite(t.addSquareness()));
    m.open("table", "class", "long rows").open("thead").open("tr");
    m.element("th", "What", "style", "width: 22%");
    m.element("th", "add to x", "style", "width: 12%", "class", "n");
    m.element("th", "add to y", "style", "width: 12%", "class", "n");
    m.element("th", "add to rotation", "style", "width: 14%", "class", "n");
    if (squareness) {
      m.element("th", "add to squareness", "style", "width: 11%", "class", "n");
    }
    m.element("th", "Frame", "style", "width: 7%");
    m.element("th", "Takes out", "style", "width: 15%");
    m.element("th", "Entered");
    m.close("tr").close("thead").open("tbody");
    for (ResultWords.Trim t : ResultWords.trims(trims)) {
      m.open("tr")
          .element("td", t.where() + (t.from().isEmpty() ? "" : ", now " + t.from() + " mm"));
      amount(m, t.x(), "");
      amount(m, t.y(), "");
      amount(m, t.rotation(), t.turn());
      if (squareness) {
        amount(m, t.squareness(), "");
      }
      m.element("td", t.frame());
      m.element(
          "td", t.takesOut().replaceFirst("^takes out ", "").replace(" of the next panel", ""));
      m.element("td", "").close("tr");
    }
    m.close("tbody").close("table");
    m.element("p", ResultWords.SHEET, "class", "quiet");
  }

  private static void amount(Markup m, ResultWords.Amount v, String turn) {
    boolean none = v.value().equals("0") && !turn.isEmpty();
    String value = none ? "" : v.value();
    m.open("td", "class", "n")
        .text(turn.isEmpty() ? value : ("turn by " + turn + " " + value).strip());
    if (!v.error().isEmpty()) {
      m.element("div", v.error(), "class", "quiet");
    }
    m.close("td");
  }

  private static void check(Markup m, StoredCheck c) {
    String p =
        Double.isNaN(c.p())
            ? ""
            : c.p() < 1e-4 ? ", p < 0.0001" : ", p = " + String.format(Locale.ROOT, "%.2g", c.p());
    String on = c.second().isEmpty() ? "a later article" : String.join(", ", c.second());
    m.element(
        "p",
        "Checked on "
            + on
            + ": "
            + verdict(c.verdict())
            + (Double.isNaN(c.chiSquare())
                ? "."
                : " (chi-square "
                    + Figures.shown(c.chiSquare(), 1)
                    + " on "
                    + c.degreesOfFreedom()
                    + " degrees of freedom"
                    + p
                    + ")."),
        "style",
        "margin-top: 2mm");
    m.open("table", "class", "long rows").open("thead").open("tr");
    m.element("th", "Trim", "style", "width: 25%");
    m.element("th", "Predicted to remain", "style", "width: 25%");
    m.element("th", "Seen", "style", "width: 25%");
    m.element("th", "Finding");
    m.close("tr").close("thead").open("tbody");
    for (StoredCheck.Term t : c.terms()) {
      m.open("tr").element("td", TrimCheck.words(t.term()));
      m.element("td", ResultWords.page(values(t, t.promised(), t.turned(false))));
      m.element("td", ResultWords.page(values(t, t.seen(), t.turned(true))));
      m.element("td", finding(t.finding()), "class", t.finding().equals("held") ? "plain" : "open");
      m.close("tr");
    }
    m.close("tbody").close("table");
  }

  private static String verdict(String key) {
    return switch (key) {
      case "held" -> "the trims held";
      case "partly" -> "the trims held in part";
      case "notHeld" -> "the trims did not hold";
      default -> key;
    };
  }

  private static String finding(String key) {
    return key.replaceAll("(?<=[a-z])(?=[A-Z])", " ").toLowerCase(Locale.ROOT);
  }

  private static String values(StoredCheck.Term t, Xyr v, String turned) {
    boolean scale = t.term().equals(TermFamily.SCALE.key());
    List<String> s = new ArrayList<>();
    plane(s, v.x(), scale);
    plane(s, v.y(), scale);
    if (!Double.isNaN(v.rotation())) {
      s.add(Figures.signed(v.rotation(), scale ? 3 : 2) + (scale ? " mrad" : "\u00b0"));
    }
    if (!turned.isEmpty()) {
      s.add(turned);
    }
    return String.join(", ", s);
  }

  private static void plane(List<String> s, double v, boolean scale) {
    if (!Double.isNaN(v)) {
      s.add(scale ? Figures.signed(v, 0) + " ppm" : Figures.signed(v, 3) + " mm");
    }
  }
}
