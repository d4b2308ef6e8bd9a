package org.padtrue.numeric;

import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Tail probabilities and quantiles; NaN where the arguments say nothing. Statistics, probabilities
 * and quantiles are pure numbers.
 *
 * <p>Statistics, probabilities and quantiles are pure numbers.
 */
public final class Tails {
  private Tails() {}

  /** P(F > f). */
  public static double f(double f, double df1, double df2) {
    if (!(df1 > 0) || !(df2 > 0) || Double.isNaN(f)) {
      return Double.NaN;
    }
    if (f <= 0) {
      return 1;
    }
    if (df2 > 1e7) {
      return chiSquare(f * df1, df1);
    }
    // The complement of a distribution function near one loses digits; F swaps its tails exactly.
    return new FDistribution(null, df2, df1).cumulativeProbability(1 / f);
  }

  /** P(chi-square > x). */
  public static double chiSquare(double x, double df) {
    if (!(df > 0) || Double.isNaN(x)) {
      return Double.NaN;
    }
    return x <= 0
        ? 1
        : org.apache.commons.math3.special.Gamma.regularizedGammaQ(0.5 * df, 0.5 * x, 1e-15, 10000);
  }

  /** Quantile of the chi-square distribution. */
  public static double chiSquareQuantile(double p, double df) {
    // The library's own chi-square seeds a random generator each time.
    return new GammaDistribution(null, df / 2, 2).inverseCumulativeProbability(p);
  }

  /** Two-sided quantile of Student's t: P(|T| &lt; t) = coverage. */
  public static double t(double coverage, double df) {
    if (!(df > 0)) {
      return Double.NaN;
    }
    return new TDistribution(null, Math.min(df, 1e6))
        .inverseCumulativeProbability(0.5 + 0.5 * coverage);
  }

  /** Half chi-square 0, half chi-square 1: a variance against zero (Self and Liang 1987). */
  public static double halfChiSquare(double lr) {
    return lr <= 0 ? 1 : 0.5 * chiSquare(lr, 1);
  }
}
