package org.padtrue.drift;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The slow part of a series: one level, a line in time, steps at times found, steps at known
 * events, or a line with such steps; the one with the smallest BIC. A step at a found time counts
 * three parameters (Zhang and Siegmund 2007, Biometrics 63, 22): its place is chosen among many.
 *
 * @param kind what it is
 * @param columns its columns for a regression, the constant first, the days second when it has a
 *     trend
 * @param starts first points of the levels after the first
 */
record SlowPart(SlowKind kind, double[][] columns, int[] starts) {
  private static final int MOST_BREAKS = 5;

  /** A line, to start from. */
  static SlowPart line(double[] days) {
    return new SlowPart(SlowKind.TREND, new double[][] {ones(days.length), days}, new int[0]);
  }

  /** Fewest points of a level. */
  static int minSegment(int n) {
    return Math.max(4, (int) Math.ceil(0.05 * n));
  }

  /**
   * Chooses.
   *
   * @param days time of each point
   * @param y values with temperature and warm-up taken off
   * @param sigma relative standard deviations
   * @param events first points after known events
   * @param segmentations best breaks for each number of them
   */
  static SlowPart choose(
      double[] days, double[] y, double[] sigma, int[] events, List<Segmentation> segmentations) {
    int n = y.length;
    List<SlowPart> candidates = new ArrayList<>();
    candidates.add(new SlowPart(SlowKind.STEADY, new double[][] {ones(n)}, new int[0]));
    candidates.add(line(days));
    if (events.length > 0) {
      double[][] steps = steps(n, events);
      candidates.add(new SlowPart(SlowKind.EVENT_STEPS, join(ones(n), steps), events));
      candidates.add(
          new SlowPart(SlowKind.TREND_AND_EVENT_STEPS, join(ones(n), join(days, steps)), events));
    }
    for (Segmentation s : segmentations) {
      if (s.starts().length > 0) {
        candidates.add(
            new SlowPart(SlowKind.STEPS, join(ones(n), steps(n, s.starts())), s.starts()));
      }
    }
    SlowPart best = candidates.get(0);
    double least = Double.POSITIVE_INFINITY;
    for (SlowPart c : candidates) {
      double bic = c.bic(y, sigma);
      if (bic < least) {
        least = bic;
        best = c;
      }
    }
    return best;
  }

  private double bic(double[] y, double[] sigma) {
    int perStep = kind == SlowKind.STEPS ? 3 : 1;
    int parameters = columns.length - starts.length + perStep * starts.length + 1;
    return Segmentation.bic(Regression.fit(columns, y, sigma).rss, y.length, parameters);
  }

  static List<Segmentation> segmentations(double[] y, double[] sigma) {
    int min = minSegment(y.length);
    int most = Math.min(MOST_BREAKS, y.length / min - 1);
    return most < 1 ? List.of() : Segmentation.fits(y, sigma, most, min);
  }

  static double[] ones(int n) {
    double[] a = new double[n];
    Arrays.fill(a, 1);
    return a;
  }

  static double[][] steps(int n, int[] starts) {
    double[][] c = new double[starts.length][n];
    for (int k = 0; k < starts.length; k++) {
      Arrays.fill(c[k], starts[k], n, 1);
    }
    return c;
  }

  static double[][] join(double[] first, double[][] rest) {
    double[][] all = new double[rest.length + 1][];
    all[0] = first;
    System.arraycopy(rest, 0, all, 1, rest.length);
    return all;
  }

  boolean sameAs(SlowPart o) {
    return kind == o.kind && Arrays.equals(starts, o.starts);
  }
}
