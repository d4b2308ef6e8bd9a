package org.padtrue.mixed.reml;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.random.SobolSequenceGenerator;
import org.padtrue.numeric.Mixture;
import org.padtrue.numeric.Tails;

/**
 * Standard errors that know that variances are estimated.
 *
 * <p>Errors of plug-in predictions cover too little, most where a variance has few levels or sits
 * on its boundary. Here the prediction error is averaged over what the data leave open about the
 * variances: the restricted likelihood of theta with the prior of Tiao and Tan (1965, Biometrika
 * 52), density proportional to theta / (theta^2 + 1/n) for n rows a level: flat in the variance
 * near zero, flat in its logarithm far out, so that a mean over levels gets its classical t
 * interval. The average is importance sampling on a Sobol sequence; the proposal is the product of
 * the one-at-a-time conditional densities. Errors are those of the REML prediction itself, so the
 * distance between conditional and REML predictions counts. Deterministic.
 *
 * <p>Such errors have long tails where a factor has few levels. The standard error reported is
 * therefore the half width of the central 95 % interval over 1.96; {@code mse} and {@code df} hold
 * the scale and degrees of freedom of the t distribution with the same 68 % and 95 % points.
 */
public final class VarianceUncertainty {
  private static final int GRID = 28;
  private static final double DROP = 6.5;
  private static final double Z95 = 1.959963984540054;
  private static final double Z68 = 0.994457883209753;

  /** Mean square errors and cross products of errors: random columns first, then fixed. */
  public final double[][] mse;

  /** Degrees of freedom of the t distribution that {@code mse} scales, same order. */
  public final double[] df;

  /** Half width of the 95 % interval over 1.96, same order. */
  public final double[] se;

  /** The same for sums of two coefficients, in the order asked for. */
  public final double[] sumSe;

  /** Plain second moments of the errors: consistent under sums, heavier in the tails. */
  public final double[][] moments;

  private VarianceUncertainty(
      double[][] mse, double[] df, double[] se, double[] sumSe, double[][] moments) {
    this.mse = mse;
    this.df = df;
    this.se = se;
    this.sumSe = sumSe;
    this.moments = moments;
  }

  /** Integrates. */
  public static VarianceUncertainty of(RandomEffects model, RandomEffectsFit fit) {
    return of(model, fit, new int[0][]);
  }

  /**
   * Integrates.
   *
   * @param sums pairs of coefficients whose sum is wanted too: random columns first, then fixed
   */
  public static VarianceUncertainty of(RandomEffects model, RandomEffectsFit fit, int[][] sums) {
    int d = model.parameters();
    int k = fit.random().length + fit.fixed().length;
    int nu = fit.rows() - fit.rank();
    if (d == 0) {
      double[][] m = new double[k][k];
      for (int i = 0; i < k; i++) {
        for (int j = 0; j < k; j++) {
          m[i][j] = fit.covariance(i, j);
        }
      }
      double[] df = new double[k];
      double[] se = new double[k];
      Arrays.fill(df, nu);
      for (int i = 0; i < k; i++) {
        se[i] = Math.sqrt(m[i][i]) * Tails.t(0.95, nu) / Z95;
      }
      double[] sumSe = new double[sums.length];
      for (int i = 0; i < sums.length; i++) {
        sumSe[i] = Math.sqrt(sumVariance(m, sums[i])) * Tails.t(0.95, nu) / Z95;
      }
      return new VarianceUncertainty(m, df, se, sumSe, m);
    }
    return new Integrator(model, fit, d, k, nu, sums).run();
  }

  private static double sumVariance(double[][] c, int[] s) {
    return Math.max(0, c[s[0]][s[0]] + c[s[1]][s[1]] + 2 * c[s[0]][s[1]]);
  }

  private static final class Integrator {
    final MixedSystem s;
    final RandomEffectsFit fit;
    final int d;
    final int k;
    final int nu;
    final int[][] sums;
    final double[] perLevel;
    final double[] theta;

    Integrator(RandomEffects model, RandomEffectsFit fit, int d, int k, int nu, int[][] sums) {
      this.sums = sums;
      s = model.system();
      this.fit = fit;
      this.d = d;
      this.k = k;
      this.nu = nu;
      theta = fit.theta().clone();
      int[] levels = new int[d];
      double[] rows = new double[d];
      for (int j = 0; j < s.q; j++) {
        if (s.thetaOf[j] < d) {
          levels[s.thetaOf[j]]++;
          rows[s.thetaOf[j]] += s.randomSquare(j);
        }
      }
      perLevel = new double[d];
      for (int j = 0; j < d; j++) {
        perLevel[j] = Math.max(1, rows[j] / Math.max(1, levels[j]));
      }
    }

    double logDensity(double[] zeta) {
      double l = 0;
      for (int j = 0; j < d; j++) {
        double th = ThetaSearch.theta(zeta[j]);
        theta[j] = th;
        l += zeta[j] + Math.log(Math.max(th, 1e-12) / (th * th + 1 / perLevel[j]));
      }
      return l - 0.5 * s.deviance(theta, Estimation.REML);
    }

    VarianceUncertainty run() {
      double[] mode = new double[d];
      for (int j = 0; j < d; j++) {
        mode[j] = Math.log1p(fit.theta()[j]);
      }
      Proposal[] q = new Proposal[d];
      for (int j = 0; j < d; j++) {
        double[] z = mode.clone();
        int jj = j;
        q[j] =
            new Proposal(
                v -> {
                  z[jj] = v;
                  return logDensity(z);
                },
                mode[j]);
      }
      int n = samples();
      SobolSequenceGenerator sobol = new SobolSequenceGenerator(d);
      sobol.skipTo(1);
      double[] logWeight = new double[n];
      double[][][] cov = new double[n][][];
      double[][] at = new double[n][];
      double top = Double.NEGATIVE_INFINITY;
      double[] z = new double[d];
      for (int m = 0; m < n; m++) {
        double[] u = sobol.nextVector();
        double lq = 0;
        for (int j = 0; j < d; j++) {
          z[j] = q[j].inverse(u[j]);
          lq += q[j].logDensity(z[j]);
        }
        logWeight[m] = logDensity(z) - lq;
        top = Math.max(top, logWeight[m]);
        double v = s.rss / nu;
        at[m] = s.solve(theta);
        cov[m] = s.inverse(theta);
        for (double[] row : cov[m]) {
          for (int j = 0; j < k; j++) {
            row[j] *= v;
          }
        }
      }
      return average(weights(logWeight, top), cov, at);
    }

    private int samples() {
      if (k > 400) {
        return 8;
      }
      if (k > 150) {
        return 24;
      }
      return d <= 2 ? 48 : 96;
    }

    /** Truncated importance weights (Ionides 2008), so that no single draw decides. */
    private static double[] weights(double[] logWeight, double top) {
      int n = logWeight.length;
      double[] w = new double[n];
      double sum = 0;
      for (int m = 0; m < n; m++) {
        w[m] = Math.exp(logWeight[m] - top);
        sum += w[m];
      }
      double cap = sum / n * Math.sqrt(n);
      sum = 0;
      for (int m = 0; m < n; m++) {
        w[m] = Math.min(w[m], cap);
        sum += w[m];
      }
      for (int m = 0; m < n; m++) {
        w[m] /= sum;
      }
      return w;
    }

    private VarianceUncertainty average(double[] w, double[][][] cov, double[][] at) {
      double[] point = new double[k];
      System.arraycopy(fit.random(), 0, point, 0, fit.random().length);
      System.arraycopy(fit.fixed(), 0, point, fit.random().length, fit.fixed().length);
      double[][] mse = new double[k][k];
      for (int m = 0; m < w.length; m++) {
        for (int i = 0; i < k; i++) {
          double di = at[m][i] - point[i];
          for (int j = 0; j <= i; j++) {
            mse[i][j] += w[m] * (cov[m][i][j] + di * (at[m][j] - point[j]));
          }
        }
      }
      double[] df = new double[k];
      double[] se = new double[k];
      double[] ratio = new double[k];
      double[] sd = new double[w.length];
      double[] shift = new double[w.length];
      for (int i = 0; i < k; i++) {
        for (int m = 0; m < w.length; m++) {
          sd[m] = Math.sqrt(Math.max(0, cov[m][i][i]));
          shift[m] = at[m][i] - point[i];
        }
        double h95 = Mixture.halfWidth(w, shift, sd, 0.95, Tails.t(0.95, nu) / Z95);
        double h68 = Mixture.halfWidth(w, shift, sd, 0.68, Tails.t(0.68, nu) / Z68);
        df[i] = Mixture.degreesOfFreedom(h95 / h68, nu);
        se[i] = h95 / Z95;
        double scale = h95 / Tails.t(0.95, df[i]);
        ratio[i] = mse[i][i] > 0 ? scale / Math.sqrt(mse[i][i]) : 0;
      }
      double[] sumSe = new double[sums.length];
      for (int i = 0; i < sums.length; i++) {
        for (int m = 0; m < w.length; m++) {
          sd[m] = Math.sqrt(sumVariance(cov[m], sums[i]));
          shift[m] = at[m][sums[i][0]] - point[sums[i][0]] + at[m][sums[i][1]] - point[sums[i][1]];
        }
        sumSe[i] = Mixture.halfWidth(w, shift, sd, 0.95, Tails.t(0.95, nu) / Z95) / Z95;
      }
      double[][] scaled = new double[k][k];
      for (int i = 0; i < k; i++) {
        for (int j = 0; j <= i; j++) {
          mse[j][i] = mse[i][j];
          scaled[i][j] = mse[i][j] * ratio[i] * ratio[j];
          scaled[j][i] = scaled[i][j];
        }
      }
      return new VarianceUncertainty(scaled, df, se, sumSe, mse);
    }
  }

  /** One-dimensional density on a grid: its inverse distribution function and log density. */
  private static final class Proposal {
    private final double lo;
    private final double step;
    private final double[] density;
    private final double[] cumulative;

    Proposal(DoubleUnaryOperator f, double mode) {
      double best = f.applyAsDouble(mode);
      double peak = mode;
      // The prior moves the peak up from a boundary estimate of zero.
      for (double z = mode + 0.05; z < mode + 1.2; z += 0.15) {
        double v = f.applyAsDouble(z);
        if (v > best) {
          best = v;
          peak = z;
        }
      }
      double up = peak;
      for (double s = 0.1; f.applyAsDouble(up) > best - DROP && up < 16; s *= 1.4) {
        up += s;
      }
      double down = peak;
      for (double s = 0.1; down > 0 && f.applyAsDouble(down) > best - DROP; s *= 1.4) {
        down = Math.max(0, down - s);
      }
      lo = down;
      step = (up - down) / (GRID - 1);
      density = new double[GRID];
      double max = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < GRID; i++) {
        density[i] = f.applyAsDouble(lo + i * step);
        max = Math.max(max, density[i]);
      }
      for (int i = 0; i < GRID; i++) {
        // A floor keeps the proposal wider than the density it stands for.
        density[i] = Math.exp(density[i] - max) + 0.01;
      }
      cumulative = new double[GRID];
      for (int i = 1; i < GRID; i++) {
        cumulative[i] = cumulative[i - 1] + 0.5 * (density[i] + density[i - 1]) * step;
      }
      double total = cumulative[GRID - 1];
      for (int i = 0; i < GRID; i++) {
        cumulative[i] /= total;
        density[i] /= total;
      }
    }

    double inverse(double u) {
      int i = Arrays.binarySearch(cumulative, u);
      if (i < 0) {
        i = -i - 2;
      }
      i = Math.min(Math.max(i, 0), GRID - 2);
      double rest = u - cumulative[i];
      double a = density[i];
      double slope = (density[i + 1] - a) / step;
      double t =
          Math.abs(slope) < 1e-12
              ? rest / a
              : (Math.sqrt(Math.max(0, a * a + 2 * slope * rest)) - a) / slope;
      return lo + i * step + Math.min(Math.max(t, 0), step);
    }

    double logDensity(double z) {
      double t = (z - lo) / step;
      int i = Math.min(Math.max((int) t, 0), GRID - 2);
      double f = Math.min(Math.max(t - i, 0), 1);
      return Math.log(density[i] + f * (density[i + 1] - density[i]));
    }
  }
}
