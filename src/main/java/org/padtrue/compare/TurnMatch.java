package org.padtrue.compare;

import org.padtrue.quantity.Angles;

/**
 * How the rotations of one file become those of another: second = turn + sense * first.
 *
 * @param sense 1, or -1 when the files count rotation in opposite senses
 * @param turnDeg turn, degrees in (-180, 180]
 * @param agree placements that it brings together
 */
public record TurnMatch(int sense, double turnDeg, int agree) {
  static final double SAME_DEG = 0.5;

  /**
   * Finds the match that brings most placements together.
   *
   * @param first rotations, degrees
   * @param second rotations, same order
   * @param likely sense that is taken when both bring as many together
   */
  static TurnMatch of(double[] first, double[] second, int likely) {
    TurnMatch a = best(first, second, likely);
    TurnMatch b = best(first, second, -likely);
    return b.agree > a.agree ? b : a;
  }

  /** True when a placement's rotations agree under it. */
  boolean agrees(double first, double second) {
    return Math.abs(Angles.wrap(second - sense * first - turnDeg)) <= SAME_DEG;
  }

  private static TurnMatch best(double[] first, double[] second, int sense) {
    TurnMatch best = new TurnMatch(sense, 0, -1);
    for (double start : candidates(first, second, sense)) {
      TurnMatch t = new TurnMatch(sense, start, 0);
      int agree = 0;
      for (int j = 0; j < first.length; j++) {
        agree += t.agrees(first[j], second[j]) ? 1 : 0;
      }
      boolean better = agree > best.agree;
      boolean nearer = agree == best.agree && Math.abs(start) < Math.abs(best.turnDeg);
      best = better || nearer ? new TurnMatch(sense, start, agree) : best;
    }
    return best;
  }

  private static double[] candidates(double[] first, double[] second, int sense) {
    return java.util.stream.IntStream.range(0, first.length)
        .mapToDouble(i -> Math.rint(100 * Angles.wrap(second[i] - sense * first[i])) / 100)
        .distinct()
        .limit(360)
        .toArray();
  }
}
