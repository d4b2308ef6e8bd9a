package org.padtrue.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.NumberWords;
import org.padtrue.panel.Level;
import org.padtrue.panel.term.TermFamily;

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
    return judged(TrimCheckFinding.HELD, "did what was predicted" + frame);
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
            + " against the prediction, as in a wrong frame, but "
            + oneRotation()
            + ", so that cannot be told from a wrong direction");
  }

  Judged other() {
    return judged(
        TrimCheckFinding.OTHER,
        "changed by "
            + moved(item, change)
            + " against the prediction, as no usual mistake would: look, then analyse this"
            + " article");
  }

  Judged mistake(TrimCheckHypothesis h) {
    String where = h.whole() ? "" : " in " + h.axes();
    return judged(
        h.finding(),
        switch (h.finding()) {
          case WRONG_SIGN -> "doubled" + where + ": entered with the wrong sign; " + add(h);
          case NOT_ENTERED -> "is as it was" + where + ": not entered; " + add(h);
          case ENTERED_TWICE ->
              "went beyond by its own size"
                  + where
                  + ": entered twice, or in two places; take one out, or "
                  + add(h);
          case WRONG_UNIT ->
              Math.abs(h.value()[0]) + Math.abs(h.value()[1])
                      > 100 * (Math.abs(item.trim()[0]) + Math.abs(item.trim()[1]))
                  ? "a thousand times too large: entered in another unit (um for mm?); enter it in"
                      + " mm, or "
                      + add(h)
                  : "25.4 times too large: entered in inches? Enter it in mm, or " + add(h);
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
              ? its + "does not show: not entered, or entered twice; look and enter it once"
              : its + "is not entered: turn it by " + t.trim() + " degrees counter-clockwise";
      case ENTERED_TWICE -> its + "is entered twice, or in two places: take one out";
      case WRONG_SIGN ->
          its
              + "was entered clockwise: the type now stands turned by "
              + t.seen().orElse(0)
              + " degrees";
      case CANNOT_TELL -> its + "cannot be told: no turn shows on most of the type";
      default ->
          "stands turned by "
              + t.seen().orElse(0)
              + " degrees where "
              + t.promised()
              + " was predicted: look at its library";
    };
  }

  /** What changed though nobody trimmed it. */
  static String changed(TrimCheckItem item, TrimCheckSearch.Change c) {
    return term(item.name()) + " changed by " + moved(item, c);
  }

  /** A term in words, of its key in files. */
  static String term(String key) {
    return switch (key) {
      case "arrayColumn" -> "board array, step per column";
      case "arrayRow" -> "board array, step per row";
      default ->
          Level.parse(key)
              .map(Level::words)
              .or(() -> TermFamily.parse(key).map(TermFamily::words))
              .orElse(key);
    };
  }

  /** What takes the mistake back, with its sign. */
  private String add(TrimCheckHypothesis h) {
    boolean scale = item.is(TermFamily.SCALE);
    List<String> parts = new ArrayList<>();
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < h.index().length; l++) {
        if (h.index()[l] == item.columns()[k] && h.value()[l] != 0) {
          parts.add(amount(k, -h.value()[l], scale));
        }
      }
    }
    String frame =
        switch (item.frame()) {
          case PART -> " (in the part's own frame)";
          case PANEL -> " (panel frame)";
          case NONE -> "";
        };
    return "ADD " + String.join(", ", parts) + frame + " to what is programmed now";
  }

  private static String amount(int axis, double v, boolean scale) {
    String name = axis == 0 ? "x " : axis == 1 ? "y " : scale ? "squareness " : "rotation ";
    return name
        + (scale
            ? String.format(Locale.ROOT, axis < 2 ? "%+.0f ppm" : "%+.3f mrad", v)
            : axis < 2 ? NumberWords.signedUm(v) : String.format(Locale.ROOT, "%+.3f deg", v));
  }

  private static String moved(TrimCheckItem item, TrimCheckSearch.Change c) {
    boolean scale = item.is(TermFamily.SCALE);
    List<String> parts = new ArrayList<>();
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < c.shown().length; l++) {
        if (c.shown()[l] == item.columns()[k]) {
          parts.add(amount(k, c.change()[l], scale));
        }
      }
    }
    return "(" + String.join(", ", parts) + ")";
  }
}
