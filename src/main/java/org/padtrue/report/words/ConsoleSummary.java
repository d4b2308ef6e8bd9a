package org.padtrue.report.words;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Prediction;

/**
 * What a person reads in ten seconds: what to change, what to expect of it, what is at risk,
 * whether the measurement system is acceptable, what to mind, where the report is. Plain ASCII
 * lines of at most 98 columns, about 30 of them, no colours.
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
    s.expect();
    s.risk();
    s.leftOut();
    s.say("MEASURING", MeasuringVerdict.of(r).sentence() + ".");
    s.cautions();
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
              + KeyWords.whyNothing(r));
      return;
    }
    int shown = Math.min(MOST_TRIMS, r.trims().size());
    List<String> sheet = ConsoleTrims.of(r.trims().subList(0, shown));
    for (int i = 0; i < sheet.size(); i++) {
      lines.add((i == 0 ? label("CHANGE") : INDENT) + ascii(sheet.get(i)));
    }
    if (r.trims().size() > shown) {
      lines.add(
          INDENT
              + "and "
              + (r.trims().size() - shown)
              + " more that take out less each: see trims.csv");
    }
    lines.add(
        INDENT
            + "Behind +-: one standard error. RMS: um that the line takes out of the next panel.");
    lines.add(
        INDENT
            + "Outside: placements fewer."
            + " Frame: part turns with the part, panel stays with the panel.");
    lines.add(
        INDENT
            + "Sign not known to be right? Try one clear trim (0.2 mm) on a spare placement"
            + " first.");
    String rounding = RoundingWords.of(r.prediction());
    if (!rounding.isEmpty()) {
      say("", capital(rounding));
    }
  }

  private static String capital(String s) {
    return Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }

  /** Once, in one paragraph. */
  private void cautions() {
    say("CAUTION", String.join(" ", ResultWords.cautions(r)));
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
          KeyWords.some(names, MOST_NAMES)
              + ": this article cannot tell; the report says what would.");
    }
  }

  private void expect() {
    Prediction p = r.prediction();
    if (r.trims().isEmpty()) {
      say(
          "EXPECT",
          Show.um(p.seen())
              + " um RMS as measured; scatter alone leaves "
              + Show.um(p.floor())
              + " um.");
      return;
    }
    say(
        "EXPECT",
        String.format(
            Locale.ROOT,
            "next panel %s um RMS if nothing is changed, %s um with the trims; scatter alone leaves"
                + " %s um.",
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
        b.append(" if nothing is changed, ");
        b.append(Show.expected(a.expectedOutsideAfterTrim().value())).append(" with the trims");
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
