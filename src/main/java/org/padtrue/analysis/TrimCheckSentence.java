package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What became of a trim, in one sentence. */
final class TrimCheckSentence {
  private final TrimCheckItem item;
  private final int count;
  private final double onlyRotation;
  private final TrimCheckSearch.Change change;

  /** A finding, whether the promise stands, and a sentence. */
  record Judged(TrimCheckFinding finding, boolean kept, String sentence) {}

  private static Judged judged(TrimCheckFinding finding, String sentence) {
    return new Judged(finding, !finding.failed(), sentence);
  }

  TrimCheckSentence(
      TrimCheckItem item, int count, double onlyRotation, TrimCheckSearch.Change change) {
    this.item = item;
    this.count = count;
    this.onlyRotation = onlyRotation;
    this.change = change;
  }

  private String oneRotation() {
    return String.format(Locale.ROOT, "all %d measured sit at %.4g degrees", count, onlyRotation);
  }

  Judged held() {
    String frame =
        Double.isNaN(onlyRotation)
            ? ""
            : "; " + oneRotation() + ", so a wrong frame could not show";
    return judged(TrimCheckFinding.HELD, "did what it promised" + frame);
  }

  Judged tooSmall() {
    return judged(
        TrimCheckFinding.CANNOT_TELL,
        "what was trimmed is too small against the uncertainty to tell whether it was entered");
  }

  Judged notShown(boolean hidden) {
    return judged(
        TrimCheckFinding.CANNOT_TELL,
        hidden
            ? "the way the second article was measured hides it"
            : "no placement of the second article shows it");
  }

  Judged perhapsFrame() {
    return new Judged(
        TrimCheckFinding.CANNOT_TELL,
        false,
        "changed by "
            + moved(item, change)
            + " against the promise, as in a wrong frame, but "
            + oneRotation()
            + ", so that cannot be told from a wrong direction");
  }

  Judged other() {
    return judged(
        TrimCheckFinding.OTHER,
        "changed by "
            + moved(item, change)
            + " against the promise, as no usual mistake would: look, then analyse this article");
  }

  Judged mistake(TrimCheckHypothesis h) {
    String where = h.whole() ? "" : " in " + h.axes();
    return judged(
        h.finding(),
        switch (h.finding()) {
          case WRONG_SIGN -> "doubled" + where + ": entered with the wrong sign, so turn it round";
          case NOT_ENTERED -> "is as it was" + where + ": not entered, so enter it";
          case ENTERED_TWICE ->
              "overshot by its own size"
                  + where
                  + ": entered twice, or in two places, so take one out";
          case WRONG_UNIT ->
              Math.abs(h.value()[0]) + Math.abs(h.value()[1])
                      > 100 * (Math.abs(item.trim()[0]) + Math.abs(item.trim()[1]))
                  ? "overshot a thousandfold: entered in another unit (um for mm?), so enter it in"
                        + " mm"
                  : "overshot 25.4 times: entered in inches? Enter it in mm";
          default ->
              item.frame() == TrimCheckItem.Frame.PART
                  ? "does not turn with the parts as it should: entered in the panel's frame or"
                      + " turned the wrong way"
                  : "turns with the parts: entered as an offset of the parts, not of the panel";
        });
  }

  /**
   * A turn and the rest together: what went wrong with the turn comes first.
   *
   * @param turn null for none
   * @param rest null when only a turn was trimmed
   */
  static Judged with(TrimCheckTerm.@Nullable Turn turn, @Nullable Judged rest) {
    if (turn == null) {
      return java.util.Objects.requireNonNull(rest);
    }
    boolean kept = !turn.finding().failed() && (rest == null || rest.kept());
    // a turn that shows is shown, however small the rest
    TrimCheckFinding finding =
        turn.finding().failed() || rest == null || kept ? turn.finding() : rest.finding();
    return new Judged(
        finding, kept, turn(turn) + (rest == null ? "" : "; the rest: " + rest.sentence()));
  }

  private static String turn(TrimCheckTerm.Turn t) {
    String its = "its turn of " + t.trim() + " degrees ";
    return switch (t.finding()) {
      case HELD -> its + "is in";
      case NOT_ENTERED ->
          t.trim() == 180
              ? its + "is not in force: not entered, or entered twice, so look and enter it once"
              : its + "is not entered, so enter it";
      case ENTERED_TWICE -> its + "is entered twice, or in two places, so take one out";
      case WRONG_SIGN ->
          its
              + "went the other way round: the type now stands turned by "
              + t.seen().orElse(0)
              + " degrees";
      case CANNOT_TELL -> its + "cannot be told: no turn shows on most of the type";
      default ->
          "stands turned by "
              + t.seen().orElse(0)
              + " degrees where "
              + t.promised()
              + " was promised: look at its library";
    };
  }

  /** What changed though nobody trimmed it. */
  static String changed(TrimCheckItem item, TrimCheckSearch.Change c) {
    return item.name() + " changed by " + moved(item, c);
  }

  private static String moved(TrimCheckItem item, TrimCheckSearch.Change c) {
    boolean scale = item.name().equals("scale");
    List<String> parts = new ArrayList<>();
    String[] names = {"x ", "y ", ""};
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < c.shown().length; l++) {
        if (c.shown()[l] != item.columns()[k]) {
          continue;
        }
        double v = c.change()[l];
        String text =
            scale
                ? String.format(Locale.ROOT, k < 2 ? "%+.0f ppm" : "%+.3f mrad", v)
                : k < 2 ? Words.signedUm(v) : String.format(Locale.ROOT, "%+.3f deg", v);
        parts.add(names[k] + text);
      }
    }
    return "(" + String.join(", ", parts) + ")";
  }
}
