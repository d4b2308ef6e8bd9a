package org.padtrue.drift.chart;

import java.util.Arrays;

/**
 * Centre and process spread of a stated base period, with point uncertainties taken off.
 *
 * <p>Model: point i has variance processSd^2 + standardError_i^2. The spread comes from moving
 * ranges of two, so that a slow drift or a step inside the base does not widen it: processSd solves
 * mean of |x_i - x_(i-1)| / sqrt(2 processSd^2 + u_i^2 + u_(i-1)^2) = sqrt(2/pi). Without point
 * uncertainties that is mean moving range / d2, the individuals chart of the NIST/SEMATECH
 * e-Handbook, 6.3.2.2.
 *
 * <p>Values and spreads are in the unit of the series.
 *
 * @param first index of the first point of the base
 * @param count points in the base, at least 2
 * @param centre weighted mean
 * @param centreSe standard error of the centre
 * @param processSd spread from article to article beyond the points' own errors
 * @param degreesOfFreedom that the spread is worth, 0.605 (count - 1)
 */
public record BaseEstimate(
    int first,
    int count,
    double centre,
    double centreSe,
    double processSd,
    double degreesOfFreedom) {
  private static final double MEAN_ABS = Math.sqrt(2 / Math.PI);

  // Var(mean MR) / E(MR)^2 = 0.8265 / (m - 1) for independent normal points (d3 and the covariance
  // of neighbouring ranges); a chi estimate with f degrees of freedom has 1 / (2 f).
  private static final double DF_PER_RANGE = 0.605;

  /**
   * Estimates from part of a series.
   *
   * @param x values
   * @param se standard errors of the values, 0 where exact
   * @param first first index of the base
   * @param count how many
   */
  public static BaseEstimate of(double[] x, double[] se, int first, int count) {
    if (count < 2 || first < 0 || first + count > x.length) {
      throw new IllegalArgumentException("a base needs 2 points or more of the series");
    }
    double[] bx = Arrays.copyOfRange(x, first, first + count);
    double[] bs = Arrays.copyOfRange(se, first, first + count);
    double sd = processSd(bx, bs);
    double w = 0;
    double wx = 0;
    double floor = smallest(bs, sd);
    for (int i = 0; i < count; i++) {
      double v = Math.max(sd * sd + bs[i] * bs[i], floor);
      w += 1 / v;
      wx += bx[i] / v;
    }
    return new BaseEstimate(first, count, wx / w, Math.sqrt(1 / w), sd, DF_PER_RANGE * (count - 1));
  }

  // Exact points of a process that does not vary at all would weigh infinitely.
  private static double smallest(double[] se, double sd) {
    double top = sd;
    for (double s : se) {
      top = Math.max(top, s);
    }
    return top > 0 ? 1e-6 * top * top : 1;
  }

  /** Process spread by moving ranges. */
  public static double processSd(double[] x, double[] se) {
    double top = 0;
    for (int i = 1; i < x.length; i++) {
      top = Math.max(top, Math.abs(x[i] - x[i - 1]));
    }
    if (top == 0 || meanStandardRange(x, se, 0) <= MEAN_ABS) {
      return 0;
    }
    double low = 0;
    double high = 2 * top;
    for (int i = 0; i < 60; i++) {
      double mid = 0.5 * (low + high);
      if (meanStandardRange(x, se, mid) > MEAN_ABS) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return 0.5 * (low + high);
  }

  private static double meanStandardRange(double[] x, double[] se, double sd) {
    double sum = 0;
    for (int i = 1; i < x.length; i++) {
      double d = Math.abs(x[i] - x[i - 1]);
      double v = 2 * sd * sd + se[i] * se[i] + se[i - 1] * se[i - 1];
      sum += d == 0 ? 0 : d / Math.sqrt(v);
    }
    return sum / (x.length - 1);
  }

  /** Standard deviation of a point with a standard error, when in control. */
  public double sigma(double standardError) {
    return Math.hypot(processSd, standardError);
  }
}
