package org.padtrue.drift.cause;

import java.util.Arrays;

/**
 * The slow part of a series: one level, a line in time, steps at times found or at known events, or
 * a line with such steps.
 *
 * <p>Columns are pure numbers but for the days of a trend.
 *
 * @param kind what it is
 * @param columns its columns for a regression: the constant, the days when it has a trend, the
 *     steps
 * @param starts first points of the levels after the first
 */
public record SlowPart(SlowKind kind, double[][] columns, int[] starts) {

  /**
   * Puts one together.
   *
   * @param days time of each point; read only with a trend
   * @param trend whether a line belongs to it
   * @param steps first points of levels found
   * @param events first points after known events; none when there are steps
   */
  public static SlowPart of(double[] days, boolean trend, int[] steps, int[] events) {
    int n = days.length;
    double[][] base = trend ? new double[][] {ones(n), days} : new double[][] {ones(n)};
    if (steps.length > 0) {
      return new SlowPart(
          trend ? SlowKind.TREND_AND_STEPS : SlowKind.STEPS, with(base, steps, n), steps);
    }
    if (events.length > 0) {
      return new SlowPart(
          trend ? SlowKind.TREND_AND_EVENT_STEPS : SlowKind.EVENT_STEPS,
          with(base, events, n),
          events);
    }
    return new SlowPart(trend ? SlowKind.TREND : SlowKind.STEADY, base, steps);
  }

  /** Fewest points of a level. */
  public static int minSegment(int n) {
    return Math.max(4, (int) Math.ceil(0.05 * n));
  }

  public static double[] ones(int n) {
    double[] a = new double[n];
    Arrays.fill(a, 1);
    return a;
  }

  static double[] step(int n, int start) {
    double[] c = new double[n];
    Arrays.fill(c, start, n, 1);
    return c;
  }

  /** Columns with steps behind them. */
  public static double[][] with(double[][] columns, int[] starts, int n) {
    double[][] all = Arrays.copyOf(columns, columns.length + starts.length);
    for (int k = 0; k < starts.length; k++) {
      all[columns.length + k] = step(n, starts[k]);
    }
    return all;
  }
}
