package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import org.padtrue.check.TrimCheck;
import org.padtrue.check.TrimCheckFinding;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.term.TermFamily;

/** A trim check in words, for page and console. */
public final class TrimCheckWords {
  private TrimCheckWords() {}

  /** The verdict in one sentence, and the chi-square in a second. */
  public static List<String> lines(TrimCheckResult r) {
    List<String> lines = new ArrayList<>();
    lines.add(verdict(r));
    if (r.degreesOfFreedom() > 0) {
      lines.add(
          String.format(
              Locale.ROOT,
              "All trimmed terms together: chi-square %.1f on %d degrees of freedom, %s%s.",
              r.chiSquare(),
              r.degreesOfFreedom(),
              r.p() < 1e-4 ? "p < 0.0001" : String.format(Locale.ROOT, "p = %.2g", r.p()),
              r.p() < 0.05 ? "" : ", as chance explains"));
    }
    return lines;
  }

  private static String verdict(TrimCheckResult r) {
    if (r.terms().isEmpty()) {
      return "Nothing was trimmed, so there is nothing to check.";
    }
    String bad =
        r.terms().stream()
            .filter(t -> !t.kept())
            .map(t -> term(t) + " (" + finding(t.finding()) + ")")
            .collect(Collectors.joining(", "));
    long held = r.terms().stream().filter(t -> t.finding() == TrimCheckFinding.HELD).count();
    String counted = held + " of " + r.terms().size() + " trims";
    return switch (r.verdict()) {
      case HELD ->
          "Held: nothing contradicts what was predicted for the trims; " + counted + " shown.";
      case PARTLY ->
          "Partly: "
              + counted
              + " did what was predicted"
              + (bad.isEmpty() ? "." : "; not " + bad + ".");
      case NOT_HELD ->
          "Not held: no trim that can be told did what was predicted"
              + (bad.isEmpty() ? "." : "; " + bad + ".");
    };
  }

  /** A finding in words. */
  public static String finding(TrimCheckFinding f) {
    return switch (f) {
      case HELD -> "held";
      case WRONG_SIGN -> "wrong sign";
      case WRONG_FRAME -> "wrong frame";
      case NOT_ENTERED -> "not entered";
      case ENTERED_TWICE -> "entered twice";
      case WRONG_UNIT -> "wrong unit";
      case OTHER -> "changed otherwise";
      case CANNOT_TELL -> "cannot tell";
    };
  }

  /** A term in words. */
  public static String term(TrimCheckTerm t) {
    return TrimCheck.words(t.term());
  }

  /** What the numbers are, for page and console. */
  public static final String NUMBERS =
      "Predicted: what should remain, measured minus nominal, plus = right, up, counter-clockwise"
          + " as placed: first estimate plus trim. Seen: the same by the second article alone. z:"
          + " seen minus predicted in standard errors of that difference, on the axis farthest"
          + " off.";

  /** What should remain of a term, its turn included. */
  public static String promised(TrimCheckTerm t) {
    TrimCheckTerm.Turn turn = t.turn();
    return values(t, t.promised())
        + (turn == null ? "" : ", turned by " + turn.promised() + " deg");
  }

  /** What the second article shows of a term, its turn included. */
  public static String seen(TrimCheckTerm t) {
    return values(t, t.seen()) + (t.turn() == null ? "" : ", turned by " + turned(t) + " deg");
  }

  /** The whole turn that most of a type still show, degrees; empty where none was trimmed. */
  public static String turned(TrimCheckTerm t) {
    TrimCheckTerm.Turn turn = t.turn();
    if (turn == null) {
      return "";
    }
    return turn.seen().isEmpty() ? Show.UNKNOWN : "" + turn.seen().getAsInt();
  }

  /** Values of a term with their units; unknown ones are left out. */
  public static String values(TrimCheckTerm t, Xyr v) {
    boolean scale = t.term().equals(TermFamily.SCALE.key());
    boolean plane = !Double.isNaN(v.x()) || !Double.isNaN(v.y());
    String s =
        join(
            new Xyr(v.x(), v.y(), Double.NaN),
            x -> Show.signedFixed(scale ? x : 1e3 * x, 0),
            x -> "");
    s = plane ? s + (scale ? " ppm" : " um") : "";
    if (!Double.isNaN(v.rotation())) {
      s += (s.isEmpty() ? "" : ", ") + Show.signedFixed(v.rotation(), 2);
      s += scale ? " mrad" : " deg";
    }
    return s.isEmpty() ? Show.UNKNOWN : s;
  }

  private static String join(Xyr v, DoubleFunction<String> plane, DoubleFunction<String> turn) {
    List<String> s = new ArrayList<>();
    if (!Double.isNaN(v.x())) {
      s.add(plane.apply(v.x()));
    }
    if (!Double.isNaN(v.y())) {
      s.add(plane.apply(v.y()));
    }
    if (!Double.isNaN(v.rotation())) {
      s.add(turn.apply(v.rotation()));
    }
    return s.isEmpty() ? Show.UNKNOWN : String.join(" / ", s);
  }

  /** The score of the axis that is farthest off, with its sign. */
  public static String worst(TrimCheckTerm t) {
    double worst = Double.NaN;
    for (double z : new double[] {t.z().x(), t.z().y(), t.z().rotation()}) {
      worst = Math.abs(z) > Math.abs(worst) || Double.isNaN(worst) ? z : worst;
    }
    return Double.isNaN(worst) ? Show.UNKNOWN : Show.signedFixed(worst, 1);
  }

  /** Scores of a term, seen minus predicted in standard errors. */
  public static String scores(TrimCheckTerm t) {
    return join(t.z(), v -> Show.signedFixed(v, 1), v -> Show.signedFixed(v, 1));
  }
}
