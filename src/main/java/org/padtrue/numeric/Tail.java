package org.padtrue.numeric;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.special.Gamma;

/**
 * Tail probabilities and quantiles that keep their digits far out, where family levels live.
 * Statistics, probabilities and quantiles are pure numbers.
 */
public final class Tail {
  private static final double SQRT2 = Math.sqrt(2);

  private Tail() {}

  /** P(Z &lt;= z) of a standard normal. */
  public static double normalCdf(double z) {
    return 0.5 * Erf.erfc(-z / SQRT2);
  }

  /** The z with P(Z &gt; z) = p, for p in (0, 1). */
  public static double normalUpper(double p) {
    if (p > 0.5) {
      return -normalUpper(1 - p);
    }
    double low = 0;
    double high = 39;
    for (int i = 0; i < 70; i++) {
      double mid = 0.5 * (low + high);
      if (normalCdf(-mid) > p) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return 0.5 * (low + high);
  }

  /** P(|T| &gt;= |t|) of Student's t. */
  static double tTwoSided(double t, double df) {
    if (Double.isNaN(t)) {
      return Double.NaN;
    }
    return Beta.regularizedBeta(df / (df + t * t), 0.5 * df, 0.5);
  }

  /** The t with P(|T| &gt;= t) = p. */
  public static double tTwoSidedQuantile(double p, double df) {
    double low = 0;
    double high = 1;
    while (tTwoSided(high, df) > p && high < 1e12) {
      high *= 2;
    }
    for (int i = 0; i < 80; i++) {
      double mid = 0.5 * (low + high);
      if (tTwoSided(mid, df) > p) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return 0.5 * (low + high);
  }

  /** P(F &gt;= f) of Fisher's F. */
  public static double fUpper(double f, double df1, double df2) {
    if (Double.isNaN(f)) {
      return Double.NaN;
    }
    return f <= 0 ? 1 : Beta.regularizedBeta(df2 / (df2 + df1 * f), 0.5 * df2, 0.5 * df1);
  }

  /** P(X &lt;= x) of chi-square. */
  static double chiSquareCdf(double x, double df) {
    return x <= 0 ? 0 : Gamma.regularizedGammaP(0.5 * df, 0.5 * x);
  }

  /** The x with P(X &lt;= x) = p of chi-square. */
  public static double chiSquareQuantile(double p, double df) {
    double low = 0;
    double high = df + 1;
    while (chiSquareCdf(high, df) < p) {
      high *= 2;
    }
    for (int i = 0; i < 100; i++) {
      double mid = 0.5 * (low + high);
      if (chiSquareCdf(mid, df) < p) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return 0.5 * (low + high);
  }
}
