package org.padtrue.mixed;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.random.SobolSequenceGenerator;

/**
 * Standard errors that know that variances are estimated.
 *
 * <p>Errors of plug-in predictions cover too little, most where a variance has few levels or sits
 * on its boundary. Here the prediction error is averaged over what the data leave open about the
 * variances: the restricted likelihood of theta with a prior density proportional to theta (flat in
 * the variance, which gives Stein-type coverage; Morris and Tang 2011, Statist. Sci. 26(2)), by
 * importance sampling on a Sobol sequence whose proposal is the product of the one-at-a-time
 * conditional densities. The reported mean square error is that of the REML prediction itself: the
 * conditional covariance plus the squared distance between conditional and REML predictions.
 * Deterministic.
 */
final class VarianceUncertainty {
  private static final int GRID = 28;
  private static final double DROP = 6.5;

  /** Mean square errors and cross products of errors: random columns first, then fixed. */
  final double[][] mse;

  /** Satterthwaite degrees of freedom, same order. */
  final double[] df;

  private VarianceUncertainty(double[][] mse, double[] df) {
    this.mse = mse;
    this.df = df;
  }

  /** Integrates. */
  static VarianceUncertainty of(RandomEffects model, RandomEffectsFit fit) {
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
      Arrays.fill(df, nu);
      return new VarianceUncertainty(m, df);
    }
    return new Integrator(model, fit, d, k, nu).run();
  }

  private static final class Integrator {
    final MixedSystem s;
    final RandomEffectsFit fit;
    final int d;
    final int k;
    final int nu;
    final double[] power;
    final double[] theta;

    Integrator(RandomEffects model, RandomEffectsFit fit, int d, int k, int nu) {
      s = model.system();
      this.fit = fit;
      this.d = d;
      this.k = k;
      this.nu = nu;
      theta = fit.theta().clone();
      int[] levels = new int[d];
      for (int t : s.thetaOf) {
        levels[t]++;
      }
      power = new double[d];
      for (int j = 0; j < d; j++) {
        // Flat in the variance is improper with two levels; flat in the standard deviation is not.
        power[j] = levels[j] > 2 ? 1 : 0;
      }
    }

    double logDensity(double[] zeta) {
      double l = 0;
      for (int j = 0; j < d; j++) {
        double th = ThetaSearch.theta(zeta[j]);
        theta[j] = th;
        l += zeta[j] + (power[j] == 0 ? 0 : power[j] * Math.log(Math.max(th, 1e-12)));
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
      double[] mean = new double[k];
      double[] square = new double[k];
      for (int m = 0; m < w.length; m++) {
        for (int i = 0; i < k; i++) {
          double v = cov[m][i][i];
          mean[i] += w[m] * v;
          square[i] += w[m] * v * v;
          double di = at[m][i] - point[i];
          for (int j = 0; j <= i; j++) {
            mse[i][j] += w[m] * (cov[m][i][j] + di * (at[m][j] - point[j]));
          }
        }
      }
      double[] df = new double[k];
      for (int i = 0; i < k; i++) {
        for (int j = 0; j < i; j++) {
          mse[j][i] = mse[i][j];
        }
        double cv2 = mean[i] > 0 ? Math.max(0, square[i] / (mean[i] * mean[i]) - 1) : 0;
        df[i] = 2 / (cv2 + 2.0 / nu);
      }
      return new VarianceUncertainty(mse, df);
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
