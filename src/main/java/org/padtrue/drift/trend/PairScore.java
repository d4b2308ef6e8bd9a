package org.padtrue.drift.trend;

import java.util.Arrays;

/**
 * The weighted Kendall statistic of y - b x against x as a function of b, in n log n by a binary
 * indexed tree over ranks (Fenwick 1994); it falls as b rises.
 */
final class PairScore {
  private final double[] x;
  private final double[] y;
  private final double[] w;

  /** x in rising order. */
  PairScore(double[] x, double[] y, double[] w) {
    this.x = x;
    this.y = y;
    this.w = w;
  }

  double at(double slope) {
    int n = x.length;
    double[] r = new double[n];
    for (int i = 0; i < n; i++) {
      r[i] = y[i] - slope * x[i];
    }
    double[] sorted = r.clone();
    Arrays.sort(sorted);
    int[] rank = new int[n];
    double[] tree = new double[n + 1];
    double total = 0;
    double s = 0;
    int i = 0;
    while (i < n) {
      int j = i;
      while (j < n && x[j] == x[i]) {
        rank[j] = first(sorted, r[j]);
        int end = rank[j];
        while (end < n && sorted[end] == r[j]) {
          end++;
        }
        double below = sum(tree, rank[j]);
        // a value without its equal was not put in before
        double upTo = end == rank[j] + 1 ? below : sum(tree, end);
        s += w[j] * (below - (total - upTo));
        j++;
      }
      for (int k = i; k < j; k++) {
        add(tree, rank[k] + 1, w[k]);
        total += w[k];
      }
      i = j;
    }
    return s;
  }

  /** The slope at which the statistic passes a level. */
  double solve(double level) {
    double span = x[x.length - 1] - x[0];
    double spread = spread();
    if (spread == 0) {
      return 0;
    }
    double width = spread / span;
    double low = -width;
    double high = width;
    while (at(low) < level && low > -1e9 * width) {
      low *= 4;
    }
    while (at(high) > level && high < 1e9 * width) {
      high *= 4;
    }
    double fLow = at(low) - level;
    double fHigh = at(high) - level;
    double start = high - low;
    int side = 0;
    // Illinois variant of the false position: the statistic is smooth but for tiny steps.
    for (int i = 0; i < 200 && high - low > 1e-6 * start; i++) {
      double b = fLow == fHigh ? 0.5 * (low + high) : (low * fHigh - high * fLow) / (fHigh - fLow);
      if (!(b > low && b < high)) {
        b = 0.5 * (low + high);
      }
      double f = at(b) - level;
      if (f == 0) {
        return b;
      }
      if (f > 0) {
        low = b;
        fLow = f;
        fHigh = side == 1 ? 0.5 * fHigh : fHigh;
        side = 1;
      } else {
        high = b;
        fHigh = f;
        fLow = side == -1 ? 0.5 * fLow : fLow;
        side = -1;
      }
    }
    return 0.5 * (low + high);
  }

  private double spread() {
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (double v : y) {
      min = Math.min(min, v);
      max = Math.max(max, v);
    }
    return max - min;
  }

  // Number of sorted values below v.
  private static int first(double[] sorted, double v) {
    int low = 0;
    int high = sorted.length;
    while (low < high) {
      int mid = (low + high) >>> 1;
      if (sorted[mid] < v) {
        low = mid + 1;
      } else {
        high = mid;
      }
    }
    return low;
  }

  private static double sum(double[] tree, int count) {
    double s = 0;
    for (int i = count; i > 0; i -= i & -i) {
      s += tree[i];
    }
    return s;
  }

  private static void add(double[] tree, int position, double v) {
    for (int i = position; i < tree.length; i += i & -i) {
      tree[i] += v;
    }
  }
}
