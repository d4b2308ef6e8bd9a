package org.padtrue.drift.chart;

import org.apache.commons.math3.special.Gamma;
import org.padtrue.numeric.Tail;

/**
 * Constants of Shewhart charts for normal samples of n, computed from their definitions (ISO 7870-2
 * and the NIST/SEMATECH e-Handbook 6.3.2.1 print them to 3 or 4 digits).
 *
 * <p>All are pure numbers.
 *
 * @param n sample size, at least 2
 * @param c4 mean of the sample standard deviation, in sigma
 * @param d2 mean of the sample range, in sigma
 * @param d3 standard deviation of the sample range, in sigma
 */
public record ControlConstants(int n, double c4, double d2, double d3) {
  private static final double REACH = 8.5;
  private static final int STEPS = 340;

  /** Constants for samples of n. */
  public static ControlConstants of(int n) {
    if (n < 2) {
      throw new IllegalArgumentException("n = " + n + "; expected n >= 2");
    }
    double c4 =
        Math.sqrt(2.0 / (n - 1))
            * Math.exp(Gamma.logGamma(0.5 * n) - Gamma.logGamma(0.5 * (n - 1)));
    double d2 = meanRange(n);
    // The kink on the diagonal leaves an error in h^2, which one step of Richardson removes.
    double square = (4 * meanSquareRange(n, STEPS) - meanSquareRange(n, STEPS / 2)) / 3;
    return new ControlConstants(n, c4, d2, Math.sqrt(square - d2 * d2));
  }

  // Tippett 1925: E(R) = integral of 1 - F^n - (1 - F)^n; trapezoid, exponentially accurate here.
  private static double meanRange(int n) {
    double h = 2 * REACH / STEPS;
    double sum = 0;
    for (int i = 0; i <= STEPS; i++) {
      double f = Tail.normalCdf(-REACH + i * h);
      sum += 1 - Math.pow(f, n) - Math.pow(1 - f, n);
    }
    return sum * h;
  }

  // E(R^2) = 2 * double integral over x < y of 1 - F(y)^n - (1 - F(x))^n + (F(y) - F(x))^n.
  private static double meanSquareRange(int n, int steps) {
    double h = 2 * REACH / steps;
    double[] f = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      f[i] = Tail.normalCdf(-REACH + i * h);
    }
    double sum = 0;
    for (int i = 0; i <= steps; i++) {
      for (int j = i; j <= steps; j++) {
        double g = 1 - Math.pow(f[j], n) - Math.pow(1 - f[i], n) + Math.pow(f[j] - f[i], n);
        sum += i == j ? 0.5 * g : g;
      }
    }
    return 2 * sum * h * h;
  }
}
