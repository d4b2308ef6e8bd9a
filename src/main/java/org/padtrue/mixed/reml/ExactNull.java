package org.padtrue.mixed.reml;

import java.util.Arrays;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.Well19937c;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Tails;

/**
 * Null distribution of the restricted likelihood ratio of one variance against zero, exact for any
 * number of levels.
 *
 * <p>Crainiceanu and Ruppert (2004), J. R. Statist. Soc. B 66, 165-185, theorem 1: with mu the
 * eigenvalues of Z' P Z, P the projection off the fixed columns, and N residual degrees of freedom,
 * the ratio is the largest value over lambda >= 0 of N log(T / D) - sum log(1 + lambda mu_s), D =
 * sum w_s^2 / (1 + lambda mu_s) + rest, T = D at 0, with independent squared standard normals. With
 * other random effects Z and the fixed columns are those left when the others' variances are held
 * (Greven, Crainiceanu, Kuechenhoff and Peters 2008, J. Comput. Graph. Statist. 17, 870-891).
 *
 * <p>Simulated with a seed of its own: 10,000 draws, so that the standard error of p = 0.05 is
 * 0.0022; fewer where 500 of them are beyond the ratio before (Besag and Clifford 1991, Biometrika
 * 78, 301-304), a standard error of at most 4.5 % of p. Beyond the largest 100 draws the tail goes
 * on as exp(-x / 2), which falls a little more slowly than the exact one. From {@value #MANY}
 * levels on half chi-square 0, half chi-square 1 (Self and Liang 1987) stands in, which is on the
 * careful side (5 % is then 4.4 % and more).
 */
final class ExactNull {
  /** Levels from which the large-sample mixture serves. */
  static final int MANY = 50;

  private static final int DRAWS = 10_000;
  private static final int TAIL = 100;
  private static final int ENOUGH = 500;
  private static final long SEED = 20040165;
  private static final double STEP = 0.5;
  private static final double LOW = -5;
  private static final double NEGLIGIBLE = 1e-9;

  private final double[] mu;
  private final int df;

  /**
   * A null distribution.
   *
   * @param eigenvalues of Z' P Z; those that are nought, or nearly, are left out
   * @param df residual degrees of freedom: rows minus independent fixed columns
   */
  ExactNull(double[] eigenvalues, int df) {
    double max = 0;
    for (double m : eigenvalues) {
      max = Math.max(max, m);
    }
    double top = max;
    mu = Arrays.stream(eigenvalues).filter(m -> m > NEGLIGIBLE * top).map(m -> m / top).toArray();
    this.df = df;
  }

  /** P(ratio >= x). */
  double p(double x) {
    if (x <= 0 || Double.isNaN(x)) {
      return Double.isNaN(x) ? x : 1;
    }
    if (mu.length == 0 || mu.length >= MANY || df <= mu.length) {
      return Tails.halfChiSquare(x);
    }
    Draws draws = new Draws();
    int seen = 0;
    for (int i = 0; i < DRAWS; i++) {
      seen += draws.value(i, x) >= x ? 1 : 0;
      if (seen == ENOUGH) {
        return seen / (i + 1.0);
      }
    }
    if (seen >= TAIL) {
      return seen / (double) DRAWS;
    }
    double edge = edge();
    return (double) TAIL / DRAWS * Math.exp(-0.5 * Math.max(0, x - edge));
  }

  /** The least of the {@value #TAIL} largest draws. */
  private double edge() {
    for (double from = 3; ; from = from < 0.1 ? -1 : from / 2) {
      Draws draws = new Draws();
      double[] s = new double[DRAWS];
      for (int i = 0; i < DRAWS; i++) {
        s[i] = draws.value(i, from);
      }
      Arrays.sort(s);
      if (s[DRAWS - TAIL] > from) {
        return s[DRAWS - TAIL];
      }
    }
  }

  /** Simulated ratios, one after another. */
  private final class Draws {
    private final Profile profile = new Profile(mu, df);
    private final double[] pool = Pool.SQUARES;
    private final double[] w2 = new double[mu.length];
    private final int rest = df - mu.length;
    private final @Nullable GammaDistribution chi =
        rest < 100 ? new GammaDistribution(new Well19937c(SEED), 0.5 * rest, 2) : null;

    /** The ratio of a draw; anything not above {@code least} where it cannot be above that. */
    double value(int i, double least) {
      double r = rest(i);
      double bound = 0;
      double total = r;
      for (int k = 0; k < w2.length; k++) {
        w2[k] = pool[i * MANY + k];
        total += w2[k];
        // -log(1 - u) <= u / (1 - largest u) takes the sum apart; each term has its own optimum.
        double v = w2[k] * df / r;
        bound += v > 1 ? v - 1 - Math.log(v) : 0;
      }
      return bound < least ? 0 : profile.largest(w2, total);
    }

    /** Chi-square on the remaining degrees of freedom: Wilson and Hilferty (1931) for many. */
    private double rest(int i) {
      if (chi != null) {
        return chi.sample();
      }
      double c = 2 / (9.0 * rest);
      double z = 1 - c + Math.sqrt(c) * Pool.NORMALS[i];
      return rest * z * z * z;
    }
  }

  /** The draws that all distributions share. */
  private static final class Pool {
    static final double[] SQUARES = new double[DRAWS * MANY];
    static final double[] NORMALS = new double[DRAWS];

    static {
      Well19937c random = new Well19937c(SEED);
      for (int i = 0; i < DRAWS; i++) {
        NORMALS[i] = random.nextGaussian();
        for (int k = 0; k < MANY; k++) {
          double w = random.nextGaussian();
          SQUARES[i * MANY + k] = w * w;
        }
      }
    }
  }

  /**
   * The ratio that data show, for a common variance of the columns of Z with everything else held.
   *
   * @param mu eigenvalues of Z' P Z
   * @param w2 squared components of Z' P y along the eigenvectors, over mu: one degree of freedom
   *     each, in units of y
   * @param total y' P y
   * @param df residual degrees of freedom
   */
  static double ratio(double[] mu, double[] w2, double total, int df) {
    double max = Arrays.stream(mu).max().orElse(0);
    int n = (int) Arrays.stream(mu).filter(m -> m > NEGLIGIBLE * max).count();
    double[] m = new double[n];
    double[] w = new double[n];
    for (int i = 0, k = 0; i < mu.length; i++) {
      if (mu[i] > NEGLIGIBLE * max) {
        m[k] = mu[i] / max;
        w[k++] = w2[i];
      }
    }
    return n == 0 ? 0 : new Profile(m, df).largest(w, total);
  }

  /** The restricted likelihood over lambda, on a grid of log lambda, then by parabolas. */
  private static final class Profile {
    private final double[] mu;
    private final int df;
    private final double sum;
    private final double[] logDet;
    private final double[][] share;

    Profile(double[] mu, int df) {
      this.mu = mu;
      this.df = df;
      sum = Arrays.stream(mu).sum();
      double least = Arrays.stream(mu).min().orElse(1);
      // A single level of the least weight is still worth its own optimum.
      int n = 1 + (int) Math.ceil((6 - Math.log(least) - LOW) / STEP);
      logDet = new double[n];
      share = new double[n][];
      for (int g = 0; g < n; g++) {
        share[g] = new double[mu.length];
        logDet[g] = fill(Math.exp(LOW + g * STEP), share[g]);
      }
    }

    /** Shrinking lambda mu / (1 + lambda mu) of each contrast; returns the log determinant. */
    private double fill(double lambda, double[] into) {
      double det = 0;
      for (int k = 0; k < mu.length; k++) {
        double a = lambda * mu[k];
        into[k] = a / (1 + a);
        det += Math.log1p(a);
      }
      return det;
    }

    private double value(double[] a, double det, double[] w2, double total) {
      double taken = 0;
      for (int k = 0; k < a.length; k++) {
        taken += a[k] * w2[k];
      }
      return -df * Math.log1p(-taken / total) - det;
    }

    double largest(double[] w2, double total) {
      int best = -1;
      double top = 0;
      double[] v = new double[logDet.length];
      for (int g = 0; g < v.length; g++) {
        v[g] = value(share[g], logDet[g], w2, total);
        if (v[g] > top) {
          top = v[g];
          best = g;
        }
      }
      if (best < 0) {
        double slope = -sum;
        for (int k = 0; k < mu.length; k++) {
          slope += df * mu[k] * w2[k] / total;
        }
        if (slope <= 0) {
          return 0;
        }
        best = 0;
      }
      double x = LOW + best * STEP;
      double h = STEP;
      double[] a = new double[mu.length];
      double left = best > 0 ? v[best - 1] : at(x - h, a, w2, total);
      double right = best + 1 < v.length ? v[best + 1] : at(x + h, a, w2, total);
      double mid = v[best];
      for (int pass = 0; pass < 2; pass++) {
        double bend = left - 2 * mid + right;
        if (bend < 0) {
          double move = Math.max(-h, Math.min(h, 0.5 * h * (left - right) / bend));
          double y = at(x + move, a, w2, total);
          if (y > mid) {
            x += move;
            mid = y;
          }
        }
        top = Math.max(top, mid);
        if (pass == 0) {
          h = 0.1 * STEP;
          left = at(x - h, a, w2, total);
          right = at(x + h, a, w2, total);
        }
      }
      return top;
    }

    private double at(double logLambda, double[] a, double[] w2, double total) {
      double det = fill(Math.exp(logLambda), a);
      return value(a, det, w2, total);
    }
  }
}
