package org.padtrue.load.placement;

import java.util.Arrays;

/**
 * Runs of values without a gap wider than a limit, in linear time: values go into bins of half that
 * width, so that a wide gap always leaves an empty bin.
 */
final class Runs {
  private static final int MOST_BINS = 1 << 20;

  private final double gap;
  private final double[] low;
  private final double[] high;
  private final int[] count;

  Runs(double[] values, double gap) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double v : values) {
      least = Math.min(least, v);
      most = Math.max(most, v);
    }
    this.gap = gap;
    // where values lie absurdly far apart bins are wider and only still wider gaps are seen
    double width = Math.max(gap / 2, (most - least) / MOST_BINS);
    int bins = (int) ((most - least) / width) + 1;
    low = new double[bins];
    high = new double[bins];
    count = new int[bins];
    Arrays.fill(low, Double.POSITIVE_INFINITY);
    Arrays.fill(high, Double.NEGATIVE_INFINITY);
    for (double v : values) {
      int b = (int) ((v - least) / width);
      low[b] = Math.min(low[b], v);
      high[b] = Math.max(high[b], v);
      count[b]++;
    }
  }

  /** First and last value of the run with most values. */
  double[] longest() {
    double[] best = {0, 0};
    int bestCount = 0;
    double from = low[0];
    double to = high[0];
    int n = 0;
    for (int b = 0; b < count.length; b++) {
      if (count[b] == 0) {
        continue;
      }
      if (low[b] - to > gap) {
        from = low[b];
        n = 0;
      }
      to = high[b];
      n += count[b];
      if (n > bestCount) {
        bestCount = n;
        best = new double[] {from, to};
      }
    }
    return best;
  }
}
