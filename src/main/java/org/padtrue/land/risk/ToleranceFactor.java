package org.padtrue.land.risk;

import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.padtrue.numeric.NormalTail;

/**
 * Factors k of statistical tolerance intervals of a normal sample: mean plus (or plus and minus) k
 * standard deviations holds at least a share {@code coverage} of all values, with a {@code
 * confidence}.
 *
 * <p>Two-sided. Exact: by integrating over the sample mean with Gauss quadrature, about ten digits.
 * Approximate, as printed in the NIST/SEMATECH e-Handbook 7.2.6.3: k2 of Howe. Both need n of at
 * least 2.
 *
 * <p>All are pure numbers.
 */
public final class ToleranceFactor {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
  private static final GaussIntegratorFactory GAUSS = new GaussIntegratorFactory();
  private static final double ACCURACY = 1e-10;
  private static final int ITERATIONS = 500;

  private ToleranceFactor() {}

  /** Two-sided, exact. */
  public static double twoSided(int n, double coverage, double confidence) {
    check(n, coverage, confidence);
    double guess = twoSidedHowe(n, coverage, confidence);
    return solve(k -> twoSidedConfidence(n, coverage, k) - confidence, guess);
  }

  /** Two-sided, Howe's approximation: sqrt(v (1 + 1/n) z^2 / chi-square), v = n - 1. */
  public static double twoSidedHowe(int n, double coverage, double confidence) {
    check(n, coverage, confidence);
    double v = n - 1.0;
    double z = NORMAL.inverseCumulativeProbability((1 + coverage) / 2);
    double chi = new ChiSquaredDistribution(null, v).inverseCumulativeProbability(1 - confidence);
    return z * Math.sqrt(v * (1 + 1.0 / n) / chi);
  }

  /**
   * Confidence reached by a two-sided factor. Given the sample mean (in units of sigma) m, an
   * interval m plus and minus r holds the wanted share; the confidence is the chance that k s is at
   * least r.
   */
  private static double twoSidedConfidence(int n, double coverage, double k) {
    double root = Math.sqrt(n);
    double v = n - 1.0;
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, v);
    UnivariateFunction f =
        z -> {
          double r = halfWidth(z / root, coverage);
          return NORMAL.density(z) * (1 - chi.cumulativeProbability(v * r * r / (k * k)));
        };
    return 2 * pieces(f, 0, 8.5, 6, 20);
  }

  /** Half width r with Phi(m + r) - Phi(m - r) = coverage, by Newton's method. */
  private static double halfWidth(double m, double coverage) {
    double r = Math.abs(m) + NORMAL.inverseCumulativeProbability((1 + coverage) / 2);
    for (int i = 0; i < 100; i++) {
      double miss = NormalTail.above(m - r) - NormalTail.above(m + r) - coverage;
      double slope = NORMAL.density(m + r) + NORMAL.density(m - r);
      double step = miss / slope;
      r -= step;
      if (Math.abs(step) < 1e-13) {
        break;
      }
    }
    return r;
  }

  private static double pieces(
      UnivariateFunction f, double from, double to, int pieces, int nodes) {
    double sum = 0;
    double width = (to - from) / pieces;
    for (int i = 0; i < pieces; i++) {
      GaussIntegrator g = GAUSS.legendre(nodes, from + i * width, from + (i + 1) * width);
      sum += g.integrate(f);
    }
    return sum;
  }

  private static double solve(UnivariateFunction f, double guess) {
    double low = guess / 2;
    double high = guess * 2;
    while (f.value(low) > 0) {
      low /= 2;
    }
    while (f.value(high) < 0) {
      high *= 2;
    }
    return new BrentSolver(ACCURACY, ACCURACY).solve(ITERATIONS, f, low, high, guess);
  }

  private static void check(int n, double coverage, double confidence) {
    if (n < 2) {
      throw new IllegalArgumentException("n = " + n + "; expected 2 or more");
    }
    if (!(coverage > 0 && coverage < 1) || !(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "coverage = " + coverage + ", confidence = " + confidence + "; expected between 0 and 1");
    }
  }
}
