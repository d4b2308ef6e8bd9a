package org.padtrue.check;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.term.TermFamily;

/**
 * One thing that may have happened to a trim, as coefficients on the columns of the model and of
 * the wrong frames: what it adds to the promise.
 *
 * @param finding what it is
 * @param axes which axes it touches, in words; empty for all
 * @param index columns
 * @param value coefficients
 * @param cost what it must explain better than the promise, in units of log likelihood
 */
record TrimCheckHypothesis(
    TrimCheckFinding finding, String axes, int[] index, double[] value, double cost) {
  /** A mistake is taken to be a hundred times less likely beforehand than a trim entered right. */
  static final double MISTAKE = Math.log(100);

  /** On some axes only is six times less likely still. */
  private static final double SOME_AXES = Math.log(6);

  /** A change that no mistake explains is free to fit, so it must explain far more. */
  static final double OTHER = Math.log(30_000);

  static final TrimCheckHypothesis PROMISE =
      new TrimCheckHypothesis(TrimCheckFinding.HELD, "", new int[0], new double[0], 0);

  boolean whole() {
    return axes.isEmpty();
  }

  private static final String[] AXES = {"x", "y", "rotation"};

  /** A value in mm taken for inches; one in mm taken for metres, or um typed as mm. */
  private static final double[] UNITS = {25.4, 1000};

  /** Lengths entered in another unit; angles and ratios have but one. */
  private static void wrongUnit(TrimCheckItem item, double factor, List<TrimCheckHypothesis> all) {
    if (item.is(TermFamily.SCALE) || item.trim()[0] == 0 && item.trim()[1] == 0) {
      return;
    }
    int[] index = {item.columns()[0], item.columns()[1]};
    double[] value = {(factor - 1) * item.trim()[0], (factor - 1) * item.trim()[1]};
    all.add(new TrimCheckHypothesis(TrimCheckFinding.WRONG_UNIT, "", index, value, MISTAKE));
  }

  /**
   * What may have happened.
   *
   * @param item the term
   * @param frames columns of its wrong frames; empty when they cannot show
   */
  static List<TrimCheckHypothesis> of(TrimCheckItem item, int[] frames) {
    List<TrimCheckHypothesis> all = new ArrayList<>();
    all.add(PROMISE);
    if (!item.trimmed()) {
      return all;
    }
    List<int[]> subsets = subsets(item);
    for (int[] axes : subsets) {
      boolean whole = axes == subsets.get(0);
      for (TrimCheckFinding f :
          List.of(
              TrimCheckFinding.NOT_ENTERED,
              TrimCheckFinding.WRONG_SIGN,
              TrimCheckFinding.ENTERED_TWICE)) {
        all.add(times(item, axes, f, whole));
      }
    }
    for (double f : UNITS) {
      wrongUnit(item, f, all);
    }
    for (int f : frames) {
      all.add(
          new TrimCheckHypothesis(
              TrimCheckFinding.WRONG_FRAME, "", new int[] {f}, new double[] {1}, MISTAKE));
    }
    return all;
  }

  /** How often the trim is in force, minus the once that was promised. */
  private static double factor(TrimCheckFinding f) {
    return switch (f) {
      case NOT_ENTERED -> -1;
      case WRONG_SIGN -> -2;
      case ENTERED_TWICE -> 1;
      default -> 0;
    };
  }

  private static TrimCheckHypothesis times(
      TrimCheckItem item, int[] axes, TrimCheckFinding f, boolean whole) {
    int[] index = new int[axes.length];
    double[] value = new double[axes.length];
    List<String> names = new ArrayList<>();
    for (int k = 0; k < axes.length; k++) {
      index[k] = item.columns()[axes[k]];
      value[k] = factor(f) * item.trim()[axes[k]];
      names.add(AXES[axes[k]]);
    }
    return new TrimCheckHypothesis(
        f,
        whole ? "" : String.join(" and ", names),
        index,
        value,
        MISTAKE + (whole ? 0 : SOME_AXES));
  }

  /** All trimmed axes first; then single ones, and the two of the plane. */
  private static List<int[]> subsets(TrimCheckItem item) {
    List<Integer> on = new ArrayList<>();
    for (int k = 0; k < 3; k++) {
      if (item.trim()[k] != 0) {
        on.add(k);
      }
    }
    List<int[]> sets = new ArrayList<>();
    sets.add(on.stream().mapToInt(Integer::intValue).toArray());
    if (on.size() == 3) {
      sets.add(new int[] {0, 1});
    }
    for (int k = 0; k < on.size() && on.size() > 1; k++) {
      sets.add(new int[] {on.get(k)});
    }
    return sets;
  }
}
