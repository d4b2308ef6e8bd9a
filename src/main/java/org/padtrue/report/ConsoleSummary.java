package org.padtrue.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.analysis.Acceptance;
import org.padtrue.analysis.Excluded;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.PlacementResult;
import org.padtrue.analysis.Prediction;
import org.padtrue.analysis.TrimLine;

/**
 * What a person reads in ten seconds: what to change, what it buys, what is at risk, whether the
 * measuring is good enough, where the report is. Plain ASCII lines of at most 98 columns, at most
 * 25 of them, no colours.
 */
public final class ConsoleSummary {
  private static final int WIDTH = 98;
  private static final String INDENT = " ".repeat(11);
  private static final int MOST_TRIMS = 7;
  private static final int MOST_EXCLUDED = 2;
  private static final int MOST_NAMES = 4;

  private final FirstArticleResult r;
  private final List<String> lines = new ArrayList<>();

  private ConsoleSummary(FirstArticleResult r) {
    this.r = r;
  }

  /**
   * The summary.
   *
   * @param r what was found
   * @param reportDir where the report was written
   * @return lines without line ends
   */
  public static List<String> of(FirstArticleResult r, Path reportDir) {
    ConsoleSummary s = new ConsoleSummary(r);
    s.head();
    s.change();
    s.undecided();
    s.buys();
    s.risk();
    s.leftOut();
    s.say("MEASURING", MeasuringVerdict.of(r).sentence() + ".");
    s.lines.add(label("REPORT") + reportDir.resolve("report.html"));
    return List.copyOf(s.lines);
  }

  private void head() {
    FirstArticleResult.Counts c = r.counts();
    lines.add(
        ascii(
            clip(
                String.format(
                    Locale.ROOT,
                    "%s: %d of %d placements measured on %s, %d used, %d left out",
                    r.job().name(),
                    c.measured(),
                    c.nominal(),
                    r.panels().size() == 1 ? "1 panel" : r.panels().size() + " panels",
                    c.used(),
                    c.excluded()))));
    lines.add("");
  }

  private void change() {
    if (r.trims().isEmpty()) {
      say(
          "CHANGE",
          (Also.turned(r).isEmpty() ? "nothing: leave everything alone. " : "no offset. ")
              + Words.whyNothing(r));
      return;
    }
    boolean turns = r.trims().stream().anyMatch(t -> t.addTurn() != 0);
    lines.add(
        label("CHANGE")
            + String.format(
                Locale.ROOT,
                "%-30s %10s %10s %12s%s  %s",
                "values to ADD",
                "x",
                "y",
                "rotation",
                turns ? turn("turn") : "",
                "frame"));
    for (TrimLine t : r.trims().subList(0, Math.min(MOST_TRIMS, r.trims().size()))) {
      TrimText v = TrimText.of(t);
      lines.add(
          ascii(
              INDENT
                  + String.format(
                          Locale.ROOT,
                          "%-30s %10s %10s %12s%s  %s",
                          shorten(t.where(), 30),
                          v.x(),
                          v.y(),
                          v.rotation(),
                          turns ? turn(v.turn()) : "",
                          t.frame())
                      .stripTrailing()));
    }
    if (r.trims().size() > MOST_TRIMS) {
      lines.add(INDENT + "and " + (r.trims().size() - MOST_TRIMS) + " more: see trims.csv");
    }
    lines.add(INDENT + "Frame: part = turns with the part, panel = stays with the panel.");
    lines.add(
        INDENT
            + "Sign not known to be right? Try one clear trim (0.2 mm) on a spare placement"
            + " first.");
  }

  /** A column that is there only when some type is turned as a whole. */
  private static String turn(String text) {
    return String.format(Locale.ROOT, " %9s", text);
  }

  private void undecided() {
    List<String> turned = Also.turned(r);
    if (!turned.isEmpty()) {
      String more = turned.size() > 1 ? " And " + (turned.size() - 1) + " more." : "";
      say("LIBRARY", turned.get(0) + more);
    }
    List<String> names = Also.undecided(r);
    if (!names.isEmpty()) {
      say(
          "UNDECIDED",
          Words.some(names, MOST_NAMES)
              + ": this article cannot tell; the report says what would.");
    }
  }

  private void buys() {
    Prediction p = r.prediction();
    if (r.trims().isEmpty()) {
      say(
          "RMS",
          Show.um(p.seen())
              + " um as measured; scatter alone leaves "
              + Show.um(p.floor())
              + " um.");
      return;
    }
    say(
        "BUYS",
        String.format(
            Locale.ROOT,
            "next panel RMS %s um -> %s um (scatter alone leaves %s um)",
            Show.um(p.nextUntrimmed()),
            Show.um(p.nextTrimmed()),
            Show.um(p.floor())));
  }

  private void risk() {
    Acceptance a = r.acceptance();
    if (a.judged() == 0) {
      say("RISK", "not judged: no part type has lands or a tolerance.");
      return;
    }
    StringBuilder b = new StringBuilder();
    b.append(a.outside()).append(" of ").append(a.judged()).append(" judged outside now");
    if (!r.trims().isEmpty()) {
      b.append(", ").append(a.outsideAfterTrim()).append(" with the trims");
    }
    if (Double.isFinite(a.expectedOutside().value())) {
      b.append("; expected on the next panel ").append(Show.expected(a.expectedOutside().value()));
      if (!r.trims().isEmpty()) {
        b.append(" -> ").append(Show.expected(a.expectedOutsideAfterTrim().value()));
      }
    }
    List<PlacementResult> risks = Risks.worst(r, MOST_NAMES);
    if (!risks.isEmpty()) {
      b.append("; look at ");
      b.append(String.join(", ", risks.stream().map(p -> Risks.name(r, p)).toList()));
    }
    say("RISK", b.append('.').toString());
  }

  private void leftOut() {
    List<Excluded> all = Excluded.shown(r.excluded());
    for (int i = 0; i < Math.min(MOST_EXCLUDED, all.size()); i++) {
      Excluded e = all.get(i);
      String id = e.board() + "/" + e.ref();
      boolean named = e.sentence().startsWith(id) || e.sentence().startsWith(e.ref() + " ");
      String said = named ? e.sentence() : id + " " + e.sentence();
      say(i == 0 ? "LEFT OUT" : "", shorten(said, 2 * (WIDTH - INDENT.length()) - 10));
    }
    if (all.size() > MOST_EXCLUDED) {
      lines.add(INDENT + "and " + (all.size() - MOST_EXCLUDED) + " more, each named in the report");
    }
  }

  /** A labelled sentence, broken at blanks. */
  private void say(String label, String sentence) {
    StringBuilder line = new StringBuilder(label(label));
    boolean fresh = true;
    for (String word : ascii(sentence).split(" ")) {
      if (!fresh && line.length() + 1 + word.length() > WIDTH) {
        lines.add(line.toString());
        line = new StringBuilder(INDENT);
        fresh = true;
      }
      line.append(fresh ? "" : " ").append(word);
      fresh = false;
    }
    lines.add(line.toString());
  }

  private static String label(String text) {
    return String.format(Locale.ROOT, "%-11s", text);
  }

  private static String clip(String s) {
    return shorten(s, WIDTH);
  }

  private static String shorten(String s, int most) {
    return s.length() <= most ? s : s.substring(0, most - 3) + "...";
  }

  /** Keeps control characters and escape sequences of hostile names off the terminal. */
  private static String ascii(String s) {
    StringBuilder b = new StringBuilder(s.length());
    s.replace('\u00b5', 'u')
        .replace('\u2212', '-')
        .chars()
        .forEach(c -> b.append(c >= ' ' && c != 0x7f ? (char) c : '?'));
    return b.toString();
  }
}
