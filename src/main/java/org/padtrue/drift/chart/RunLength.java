package org.padtrue.drift.chart;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.padtrue.numeric.Tail;

/**
 * Average run lengths: how many points until a chart calls, for independent normal points whose
 * mean is off by a shift in standard deviations. At shift 0 that is the in-control run length.
 *
 * <p>Shifts and limits in standard deviations and run lengths in points are pure numbers.
 */
public final class RunLength {
  private static final GaussIntegratorFactory GAUSS = new GaussIntegratorFactory();

  private RunLength() {}

  /** Individuals chart with limits at plus and minus {@code limit} standard deviations. */
  public static double individuals(double limit, double shift) {
    return 1 / (Tail.normalCdf(-limit + shift) + Tail.normalCdf(-limit - shift));
  }

  /**
   * One-sided CUSUM, by a Markov chain (Brook and Evans 1972, Biometrika 59, 539).
   *
   * @param k allowance
   * @param h decision interval
   * @param shift of the mean towards this side
   */
  public static double cusumOneSided(double k, double h, double shift) {
    int n = 150;
    double step = 2 * h / (2 * n - 1);
    // P(next state is at most j, from i) depends on j - i alone
    double[] upTo = new double[2 * n];
    for (int d = -n; d < n; d++) {
      upTo[d + n] = Tail.normalCdf((d + 0.5) * step + k - shift);
    }
    RealMatrix a = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double p = j == 0 ? upTo[n - i] : upTo[j - i + n] - upTo[j - i - 1 + n];
        a.setEntry(i, j, (i == j ? 1 : 0) - p);
      }
    }
    return solve(a)[0];
  }

  /** Both sides: 1 / ARL = 1 / ARL up + 1 / ARL down. */
  public static double cusum(double k, double h, double shift) {
    return 1 / (1 / cusumOneSided(k, h, shift) + 1 / cusumOneSided(k, h, -shift));
  }

  /**
   * One-sided CUSUM, corrected diffusion (Siegmund 1985, Sequential Analysis, eq. 2.63): fast,
   * within a few percent, used where thousands of values are needed.
   */
  static double cusumSiegmund(double k, double h, double shift) {
    double d = shift - k;
    double b = h + 1.166;
    double t = d * b;
    if (Math.abs(t) < 1e-4) {
      return b * b;
    }
    return (Math.exp(-2 * t) + 2 * t - 1) / (2 * d * d);
  }

  /**
   * EWMA with steady-state limits, starting at its centre, by Crowder's integral equation (1987,
   * Technometrics 29, 401) on Gauss-Legendre nodes.
   *
   * @param lambda weight of a new point
   * @param limit half width in standard deviations of the average
   * @param shift of the mean, in standard deviations of a point
   */
  public static double ewma(double lambda, double limit, double shift) {
    double h = limit * Math.sqrt(lambda / (2 - lambda));
    // two nodes and more within the width of one step
    int nodes = (int) Math.max(32, Math.min(400, Math.ceil(4 * h / lambda)));
    GaussIntegrator g = GAUSS.legendre(nodes, -h, h);
    RealMatrix a = new Array2DRowRealMatrix(nodes, nodes);
    for (int i = 0; i < nodes; i++) {
      for (int j = 0; j < nodes; j++) {
        double p = g.getWeight(j) * step(g.getPoint(i), g.getPoint(j), lambda, shift);
        a.setEntry(i, j, (i == j ? 1 : 0) - p);
      }
    }
    double[] length = solve(a);
    double sum = 1;
    for (int j = 0; j < nodes; j++) {
      sum += g.getWeight(j) * step(0, g.getPoint(j), lambda, shift) * length[j];
    }
    return sum;
  }

  // Density of the next average at `to` when it is at `from`.
  private static double step(double from, double to, double lambda, double shift) {
    double z = (to - (1 - lambda) * from) / lambda - shift;
    return Math.exp(-0.5 * z * z) / (Math.sqrt(2 * Math.PI) * lambda);
  }

  private static double[] solve(RealMatrix a) {
    double[] ones = new double[a.getRowDimension()];
    java.util.Arrays.fill(ones, 1);
    return new LUDecomposition(a, 1e-300).getSolver().solve(new ArrayRealVector(ones)).toArray();
  }
}
