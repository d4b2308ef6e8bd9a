package org.padtrue.report;

import java.util.List;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.report.page.Html;
import org.padtrue.report.page.HtmlReport;
import org.padtrue.report.page.HtmlTable;
import org.padtrue.report.words.Show;
import org.padtrue.report.words.TrimCheckWords;

/** check.html: the verdict, every trimmed term, what was left out. One file, nothing fetched. */
final class TrimCheckPage {
  private TrimCheckPage() {}

  static String of(TrimCheckResult r, TrimCheckReport.Head head) {
    Html h = HtmlReport.begin("Trim check: " + head.job());
    h.open("header");
    h.element("p", "Trim check", "class", "kicker");
    h.element("h1", head.job());
    h.element(
        "p",
        String.join(", ", head.second())
            + " against what the analysis of "
            + String.join(", ", head.first())
            + " predicted; "
            + r.placements()
            + " placements used.");
    h.close("header").open("section", "class", "answer");
    h.element("h2", "Did the trims do what was predicted?");
    TrimCheckWords.lines(r).forEach(s -> h.element("p", Show.words(s), "class", "lead"));
    h.close("section").open("section");
    terms(h, r);
    h.element(
        "p",
        TrimCheckWords.NUMBERS.replace(", on the axis farthest off", "")
            + " The standard errors hold the uncertainty of both articles and how well the panel"
            + " offset repeats from panel to panel. Part types, nozzles and the common offset stand"
            + " in the part's own frame where nothing else is said.",
        "class",
        "quiet");
    h.close("section");
    cautions(h);
    list(h, "Notes", r.notes());
    list(h, "Left out", r.excluded());
    return HtmlReport.end(h);
  }

  private static void cautions(Html h) {
    h.open("aside", "class", "cautions", "aria-label", "Cautions");
    h.element("h3", "Before anything is changed").open("ul");
    h.element(
        "li",
        "A finding names what the numbers look like: compare it with what was entered. Offsets are"
            + " changed by a qualified person.");
    h.element(
        "li", "A moving gantry hurts: interlocks and lockout as the maker of the machine says.");
    h.close("ul").close("aside");
  }

  private static void terms(Html h, TrimCheckResult r) {
    HtmlTable t =
        new HtmlTable("Every trimmed term")
            .text("Term", "Finding")
            .numbers("Placements", "Predicted x / y, rotation", "Seen x / y, rotation", "z")
            .text("What it looks like");
    for (TrimCheckTerm c : r.terms()) {
      t.row(
          TrimCheckWords.term(c),
          TrimCheckWords.finding(c.finding()),
          Integer.toString(c.count()),
          Show.words(TrimCheckWords.promised(c)),
          Show.words(TrimCheckWords.seen(c)),
          TrimCheckWords.scores(c),
          Show.words(c.sentence()));
    }
    t.into(h);
  }

  private static void list(Html h, String title, List<String> sentences) {
    if (sentences.isEmpty()) {
      return;
    }
    h.open("section").element("h2", title).open("ul");
    sentences.forEach(s -> h.element("li", Show.words(s)));
    h.close("ul").close("section");
  }
}
