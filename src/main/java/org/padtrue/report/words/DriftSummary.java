package org.padtrue.report.words;

import java.nio.file.Path;
import java.util.List;
import org.padtrue.drift.hint.Hint;
import org.padtrue.log.DriftStudy;

/** What a person reads in ten seconds: what drifts, since when, what to do, where the report is. */
public final class DriftSummary {
  private static final int MOST_HINTS = 5;
  private static final int MOST_CHARS = 8 * (Sentences.WIDTH - 11);

  private DriftSummary() {}

  /**
   * The summary.
   *
   * @param s what was found
   * @param reportDir where the report was written
   * @return lines without line ends
   */
  public static List<String> of(DriftStudy s, Path reportDir) {
    Sentences out = new Sentences();
    int articles = s.articles().size();
    out.plain(
        "Machine "
            + s.machine()
            + ": "
            + articles
            + (articles == 1 ? " article, " : " articles, ")
            + DriftWords.day(s.from())
            + " to "
            + DriftWords.day(s.to())
            + ", "
            + s.drift().series().size()
            + " series");
    out.blank();
    List<Hint> hints = s.drift().hints();
    for (Hint h : hints.subList(0, Math.min(MOST_HINTS, hints.size()))) {
      out.say("DRIFTS", Sentences.cut(h.sentence(), MOST_CHARS));
      out.say("  DO", h.action());
    }
    if (hints.size() > MOST_HINTS) {
      out.say("", "and " + (hints.size() - MOST_HINTS) + " more: see the report.");
    }
    int quiet = DriftWords.quiet(s).size();
    boolean charted = s.drift().family().charts() > 0;
    if (hints.isEmpty()) {
      out.say(
          "DRIFTS",
          charted
              ? "nothing: leave everything alone."
              : "cannot be told yet: control limits need 8 articles or more.");
    } else {
      out.say("STEADY", "the other " + quiet + " series; leave them alone.");
    }
    String r = DriftWords.repeatability(s);
    if (!r.isEmpty()) {
      out.say("REGISTERS", r);
    }
    s.notes().forEach(n -> out.say("NOTE", n));
    out.say("SIGNS", DriftWords.SIGNS);
    if (!hints.isEmpty()) {
      out.say("CAUTION", DriftWords.CAUTIONS.get(0));
    }
    out.say("REPORT", reportDir.resolve("drift.html").toString());
    return out.lines();
  }
}
