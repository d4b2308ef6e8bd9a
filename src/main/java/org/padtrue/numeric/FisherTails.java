package org.padtrue.numeric;

import org.apache.commons.math3.special.Beta;
import org.apache.commons.math3.special.Gamma;

/**
 * Logarithms of the tails of F, and quantiles from them: far out, where the tail itself underflows.
 *
 * <p>The incomplete beta and gamma functions by continued fraction (NIST Digital Library of
 * Mathematical Functions, 8.17.22 and 8.9.2) and, for the lower gamma tail, by series (8.11.4).
 * From ten million denominator degrees of freedom on F is taken for chi-square over its own.
 */
final class FisherTails {
  private static final double MANY = 1e7;
  private static final double TINY = 1e-300;
  private static final int MOST = 100000;

  private FisherTails() {}

  /** log P(F > f). */
  static double logUpper(double f, double df1, double df2) {
    if (f <= 0) {
      return 0;
    }
    if (df2 > MANY) {
      return logGammaTail(0.5 * df1, 0.5 * df1 * f, true);
    }
    double s = df2 + df1 * f;
    return logBeta(df2 / s, df1 * f / s, 0.5 * df2, 0.5 * df1);
  }

  /** log P(F &lt; f). */
  static double logLower(double f, double df1, double df2) {
    if (f <= 0) {
      return Double.NEGATIVE_INFINITY;
    }
    if (df2 > MANY) {
      return logGammaTail(0.5 * df1, 0.5 * df1 * f, false);
    }
    double s = df2 + df1 * f;
    return logBeta(df1 * f / s, df2 / s, 0.5 * df1, 0.5 * df2);
  }

  /** log of the density of F. */
  static double logDensity(double f, double df1, double df2) {
    double a = 0.5 * df1;
    if (df2 > MANY) {
      return a * Math.log(a * f) - a * f - Gamma.logGamma(a) - Math.log(f);
    }
    double b = 0.5 * df2;
    double r = df1 * f / df2;
    return a * Math.log(r) - (a + b) * Math.log1p(r) - Beta.logBeta(a, b) - Math.log(f);
  }

  /** The f whose upper (or lower) tail has this logarithm. */
  static double quantile(double logTail, double df1, double df2, boolean upper) {
    double lo = -700;
    double hi = 700;
    double z = 0;
    for (int i = 0; i < 200; i++) {
      double f = Math.exp(z);
      double l = upper ? logUpper(f, df1, df2) : logLower(f, df1, df2);
      if (upper == l > logTail) {
        lo = z;
      } else {
        hi = z;
      }
      double slope = Math.exp(logDensity(f, df1, df2) + z - l) * (upper ? -1 : 1);
      double next = z + (logTail - l) / slope;
      if (!(next > lo && next < hi)) {
        next = 0.5 * (lo + hi);
      }
      if (Math.abs(next - z) < 1e-14 * (1 + Math.abs(z))) {
        return Math.exp(next);
      }
      z = next;
    }
    return Math.exp(z);
  }

  /** log I_x(a, b), with y = 1 - x to full precision. */
  private static double logBeta(double x, double y, double a, double b) {
    if (x > (a + 1) / (a + b + 2)) {
      return Math.log1p(-Math.exp(betaFraction(y, x, b, a)));
    }
    return betaFraction(x, y, a, b);
  }

  private static double betaFraction(double x, double y, double a, double b) {
    double c = 1;
    double d = nonZero(1 - (a + b) * x / (a + 1));
    d = 1 / d;
    double h = d;
    for (int m = 1; m < MOST; m++) {
      double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
      d = 1 / nonZero(1 + even * d);
      c = nonZero(1 + even / c);
      h *= d * c;
      double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
      d = 1 / nonZero(1 + odd * d);
      c = nonZero(1 + odd / c);
      double step = d * c;
      h *= step;
      if (Math.abs(step - 1) < 1e-16) {
        break;
      }
    }
    return a * Math.log(x) + b * Math.log(y) - Math.log(a) - Beta.logBeta(a, b) + Math.log(h);
  }

  private static double logGammaTail(double a, double x, boolean upper) {
    double head = a * Math.log(x) - x - Gamma.logGamma(a);
    if (x < a + 1) {
      double term = 1 / a;
      double sum = term;
      for (int n = 1; n < MOST && term > 1e-17 * sum; n++) {
        term *= x / (a + n);
        sum += term;
      }
      double lower = head + Math.log(sum);
      return upper ? Math.log1p(-Math.exp(lower)) : lower;
    }
    double b = x + 1 - a;
    double c = 1 / TINY;
    double d = 1 / b;
    double h = d;
    for (int i = 1; i < MOST; i++) {
      double an = -i * (i - a);
      b += 2;
      d = 1 / nonZero(an * d + b);
      c = nonZero(b + an / c);
      double step = d * c;
      h *= step;
      if (Math.abs(step - 1) < 1e-16) {
        break;
      }
    }
    double l = head + Math.log(h);
    return upper ? l : Math.log1p(-Math.exp(l));
  }

  private static double nonZero(double v) {
    return Math.abs(v) < TINY ? TINY : v;
  }
}
