package org.padtrue.numeric;

/** Order statistics in linear time. Values are in the unit of the caller. */
public final class Order {
  private Order() {}

  /** The k-th smallest value (0-based); reorders the array. */
  public static double select(double[] v, int k) {
    int lo = 0;
    int hi = v.length - 1;
    while (lo < hi) {
      double pivot = medianOfThree(v[lo], v[(lo + hi) >>> 1], v[hi]);
      int i = lo;
      int j = hi;
      while (i <= j) {
        while (v[i] < pivot) {
          i++;
        }
        while (v[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double t = v[i];
          v[i++] = v[j];
          v[j--] = t;
        }
      }
      if (k <= j) {
        hi = j;
      } else if (k >= i) {
        lo = i;
      } else {
        return v[k];
      }
    }
    return v[k];
  }

  private static double medianOfThree(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }

  /** Median; leaves the array as it is. NaN when there is none. */
  public static double median(double[] v) {
    return median(v, v.length);
  }

  /** Median of the first n values; leaves the array as it is. NaN when n is 0. */
  public static double median(double[] v, int n) {
    if (n == 0) {
      return Double.NaN;
    }
    double[] w = java.util.Arrays.copyOf(v, n);
    double upper = select(w, n / 2);
    if (n % 2 == 1) {
      return upper;
    }
    double lower = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n / 2; i++) {
      lower = Math.max(lower, w[i]);
    }
    return 0.5 * (lower + upper);
  }

  /** Consistent scale from absolute values: 1.4826 times their median. */
  public static double scale(double[] v, int n) {
    double[] w = new double[n];
    for (int i = 0; i < n; i++) {
      w[i] = Math.abs(v[i]);
    }
    return 1.482602218505602 * median(w, n);
  }
}
