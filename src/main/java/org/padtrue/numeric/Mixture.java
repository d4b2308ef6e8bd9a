package org.padtrue.numeric;

import org.apache.commons.math3.special.Erf;

/**
 * Central intervals of a mixture of normal distributions, and the t distribution like it. Means,
 * standard deviations and half widths are in the unit of the caller; coverage, factor and weights
 * are pure numbers.
 *
 * <p>Means, standard deviations and half widths are in the unit of the caller; coverage, factor and
 * weights are pure numbers.
 */
public final class Mixture {
  /** Normal distribution function on a grid; linear between, error below 1e-7. */
  private static final double GRID = 1000;

  private static final double[] PHI = new double[8002];

  static {
    for (int i = 0; i < PHI.length; i++) {
      PHI[i] = 0.5 * Erf.erfc(-i / GRID / Math.sqrt(2));
    }
  }

  /**
   * Ratios of 95 % to 68 % points of t, from the distribution itself, at these degrees of freedom.
   */
  private static final double[] DF = {
    1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 14, 20, 30, 50, 100, 1000, 1e6
  };

  private static final double[] RATIO = new double[DF.length];

  static {
    for (int i = 0; i < DF.length; i++) {
      RATIO[i] = Tails.t(0.95, DF[i]) / Tails.t(0.68, DF[i]);
    }
  }

  private Mixture() {}

  /**
   * Half width h with P(|X| &lt;= h) = coverage for X a mixture of N(shift, (factor sd)^2).
   *
   * @param w weights, summing to 1
   * @param shift means
   * @param sd standard deviations
   * @param coverage e.g. 0.95
   * @param factor widens every component
   */
  public static double halfWidth(
      double[] w, double[] shift, double[] sd, double coverage, double factor) {
    double hi = 0;
    for (int m = 0; m < w.length; m++) {
      hi = Math.max(hi, Math.abs(shift[m]) + 4 * factor * sd[m]);
    }
    if (!(hi > 0)) {
      return hi;
    }
    double lo = 0;
    for (int k = 0; k < 34 && hi - lo > 1e-5 * hi; k++) {
      double h = 0.5 * (lo + hi);
      double p = 0;
      for (int m = 0; m < w.length; m++) {
        double s = factor * sd[m];
        p += w[m] * within(h, shift[m], s);
      }
      if (p < coverage) {
        lo = h;
      } else {
        hi = h;
      }
    }
    return 0.5 * (lo + hi);
  }

  private static double within(double h, double mu, double s) {
    if (s <= 0) {
      return Math.abs(mu) <= h ? 1 : 0;
    }
    return phi((h - mu) / s) - phi((-h - mu) / s);
  }

  static double phi(double z) {
    double a = Math.abs(z) * GRID;
    if (a >= 8000) {
      return z > 0 ? 1 : 0;
    }
    int i = (int) a;
    double v = PHI[i] + (a - i) * (PHI[i + 1] - PHI[i]);
    return z > 0 ? v : 1 - v;
  }

  /** Degrees of freedom of the t whose 95 % point over its 68 % point is the ratio given. */
  public static double degreesOfFreedom(double ratio, double most) {
    if (!(ratio < RATIO[0])) {
      return Math.min(most, DF[0]);
    }
    for (int i = 1; i < DF.length; i++) {
      if (ratio > RATIO[i]) {
        double f = (RATIO[i - 1] - ratio) / (RATIO[i - 1] - RATIO[i]);
        return Math.min(
            most, Math.exp(Math.log(DF[i - 1]) + f * (Math.log(DF[i]) - Math.log(DF[i - 1]))));
      }
    }
    return most;
  }
}
