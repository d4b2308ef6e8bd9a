package org.padtrue.drift.trend;

import java.util.Arrays;
import org.padtrue.numeric.Order;
import org.padtrue.numeric.Tail;

/**
 * Median of pairwise slopes with the interval that goes with Kendall's test (Sen 1968, J. Amer.
 * Statist. Assoc. 63, 1379).
 *
 * <p>Slopes are in the unit of y per unit of x, the intercept in that of y.
 *
 * @param slope median of the slopes of all pairs with different x
 * @param intercept median of y minus slope times median of x
 * @param low lower end of the interval
 * @param high upper end of the interval
 * @param confidence what the interval covers: at least what was asked when exact
 * @param exact true when the interval is from the exact law (no ties, up to 60 points)
 */
public record TheilSen(
    double slope, double intercept, double low, double high, double confidence, boolean exact) {

  /**
   * Fits a line.
   *
   * @param x abscissa, at least two different values
   * @param y ordinate
   * @param confidence wanted coverage, such as 0.95
   */
  public static TheilSen fit(double[] x, double[] y, double confidence) {
    return fit(x, y, confidence, Law.EXACT_IF_SHORT);
  }

  /** Where the interval comes from. */
  public enum Law {
    /** Kendall's exact law without ties up to 60 points, else the normal one. */
    EXACT_IF_SHORT,
    /** The normal law always, as Sen's own example and most programs take it. */
    NORMAL
  }

  /** The same with a choice of law. */
  public static TheilSen fit(double[] x, double[] y, double confidence, Law law) {
    double[] slopes = slopes(x, y);
    if (slopes.length == 0) {
      throw new IllegalArgumentException("a slope needs two points at different x");
    }
    Arrays.sort(slopes);
    int n = x.length;
    boolean exact =
        law == Law.EXACT_IF_SHORT
            && n <= KendallDistribution.LONGEST
            && slopes.length == n * (n - 1) / 2
            && !tied(y);
    double c =
        exact
            ? exactCritical(n, 1 - confidence)
            : Tail.normalUpper(0.5 * (1 - confidence)) * Math.sqrt(MannKendall.variance(x, y));
    double covered = exact ? 1 - 2 * KendallDistribution.upper(n, (long) c + 2) : confidence;
    // M1-th smallest and (M2 + 1)-th smallest slope, M1 = (N - C) / 2, M2 = (N + C) / 2
    int m1 = (int) Math.round((slopes.length - c) / 2);
    int m2 = (int) Math.round((slopes.length + c) / 2);
    double slope = Order.median(slopes);
    return new TheilSen(
        slope,
        Order.median(y) - slope * Order.median(x),
        m1 < 1 ? Double.NEGATIVE_INFINITY : slopes[m1 - 1],
        m2 >= slopes.length ? Double.POSITIVE_INFINITY : slopes[m2],
        covered,
        exact);
  }

  static double[] slopes(double[] x, double[] y) {
    int n = x.length;
    double[] s = new double[n * (n - 1) / 2];
    int count = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (x[i] != x[j]) {
          s[count++] = (y[j] - y[i]) / (x[j] - x[i]);
        }
      }
    }
    return Arrays.copyOf(s, count);
  }

  // Smallest C that S can take with P(|S| > C) <= alpha; S moves in steps of 2.
  private static double exactCritical(int n, double alpha) {
    long pairs = (long) n * (n - 1) / 2;
    long c = pairs % 2;
    while (c < pairs && 2 * KendallDistribution.upper(n, c + 2) > alpha) {
      c += 2;
    }
    return c;
  }

  private static boolean tied(double[] y) {
    double[] a = y.clone();
    Arrays.sort(a);
    for (int i = 1; i < a.length; i++) {
      if (a[i] == a[i - 1]) {
        return true;
      }
    }
    return false;
  }
}
