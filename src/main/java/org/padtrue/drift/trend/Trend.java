package org.padtrue.drift.trend;

import java.util.Arrays;
import org.padtrue.numeric.Tail;

/**
 * Robust trend in which an uncertain point counts for less: median of pairwise slopes with pair
 * weight 1/(sigma_i sigma_j), tested by the weighted Kendall statistic S = sum of w_i w_j sign
 * sign. With equal sigmas it is {@link TheilSen} and {@link MannKendall}.
 *
 * <p>The variance of S without a trend is taken for normal points with their own sigmas: Hajek's
 * projection plus the pairs' remainder, which for equal sigmas is Kendall's n(n-1)(2n+5)/18. The
 * interval holds the slopes that the test does not reject.
 *
 * <p>Slopes are in the unit of y per unit of x; p is a pure number.
 *
 * @param slope per unit of x
 * @param low lower end of the interval
 * @param high upper end of the interval
 * @param p two-sided p value of no trend
 */
public record Trend(double slope, double low, double high, double p) {
  /** Beyond this many points the slopes are not listed but the statistic is solved for its zero. */
  private static final int LISTED = 60;

  /** Up to this many exact points the plain median of slopes is cheap. */
  private static final int SORTED = 400;

  private static final double EQUAL = 1e-6;

  /**
   * Fits a trend.
   *
   * @param x abscissa in rising order, at least two different values
   * @param y ordinate
   * @param sigma standard deviation of each point, positive
   * @param confidence wanted coverage
   */
  public static Trend fit(double[] x, double[] y, double[] sigma, double confidence) {
    if (equal(sigma) && x.length <= SORTED) {
      TheilSen t = TheilSen.fit(x, y, confidence);
      return new Trend(t.slope(), t.low(), t.high(), MannKendall.test(x, y).p());
    }
    double[] w = new double[sigma.length];
    double mean = Arrays.stream(sigma).average().orElse(1);
    for (int i = 0; i < w.length; i++) {
      w[i] = mean / sigma[i];
    }
    double sd = Math.sqrt(KendallVariance.of(x, w, sigma));
    PairScore score = new PairScore(x, y, w);
    double p = sd > 0 ? Math.min(1, 2 * Tail.normalCdf(-Math.abs(score.at(0)) / sd)) : 1;
    double reach = Tail.normalUpper(0.5 * (1 - confidence)) * sd;
    return x.length <= LISTED ? listed(x, y, w, reach, p) : solved(score, reach, p);
  }

  static boolean equal(double[] sigma) {
    double min = Double.POSITIVE_INFINITY;
    double max = 0;
    for (double s : sigma) {
      min = Math.min(min, s);
      max = Math.max(max, s);
    }
    return max - min <= EQUAL * max;
  }

  private static Trend listed(double[] x, double[] y, double[] w, double reach, double p) {
    int n = x.length;
    int count = 0;
    double[][] pairs = new double[n * (n - 1) / 2][];
    double total = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (x[j] != x[i]) {
          double weight = w[i] * w[j];
          pairs[count++] = new double[] {(y[j] - y[i]) / (x[j] - x[i]), weight};
          total += weight;
        }
      }
    }
    Arrays.sort(pairs, 0, count, (a, b) -> Double.compare(a[0], b[0]));
    double below = 0;
    double slope = Double.NaN;
    double low = Double.NEGATIVE_INFINITY;
    double high = Double.POSITIVE_INFINITY;
    for (int k = 0; k < count; k++) {
      double before = total - 2 * below;
      below += pairs[k][1];
      double after = total - 2 * below;
      double b = pairs[k][0];
      if (before > reach && after <= reach) {
        low = b;
      }
      if (Double.isNaN(slope) && after <= 0) {
        slope = after == 0 && k + 1 < count ? 0.5 * (b + pairs[k + 1][0]) : b;
      }
      if (before >= -reach && after < -reach) {
        high = b;
      }
    }
    return new Trend(slope, low, high, p);
  }

  private static Trend solved(PairScore score, double reach, double p) {
    double slope = score.solve(0);
    return new Trend(slope, score.solve(reach), score.solve(-reach), p);
  }
}
