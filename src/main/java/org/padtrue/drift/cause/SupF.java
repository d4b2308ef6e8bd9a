package org.padtrue.drift.cause;

import org.padtrue.numeric.Tail;

/**
 * Test for one change of mean at an unknown time: the largest F over all places (Andrews 1993),
 * with the tail of the supremum after DeLong (1981) for one parameter.
 *
 * <p>F and p are pure numbers.
 */
public final class SupF {
  private SupF() {}

  /**
   * P value of the largest F.
   *
   * @param f largest F
   * @param df degrees of freedom that the step and other columns leave
   * @param trim fewest points on either side, as a share of all
   */
  public static double pOf(double f, double df, double trim) {
    if (Double.isNaN(f) || f <= 0 || !(df > 0)) {
      return 1;
    }
    // The limit law holds for a known variance: take the chi-square with the same pointwise tail.
    double point = Math.max(Tail.fUpper(f, 1, df), 1e-300);
    double z = Tail.normalUpper(0.5 * point);
    return pOfChiSquare(z * z, trim);
  }

  /** P value of the supremum of B(t)^2 / (t (1 - t)) over [trim, 1 - trim]. */
  public static double pOfChiSquare(double c, double trim) {
    if (c <= 1.5) {
      return 1;
    }
    double log = 2 * Math.log((1 - trim) / trim);
    double p =
        Math.sqrt(0.5 * c) * Math.exp(-0.5 * c) / Math.sqrt(Math.PI) * ((1 - 1 / c) * log + 2 / c);
    return Math.min(1, p);
  }
}
