package org.padtrue.enough;

import java.util.List;
import java.util.Random;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.numeric.Tails;
import org.padtrue.trim.Step;

/**
 * The offsets of all levels of one factor along one axis.
 *
 * <p>Each draw takes a spread between levels from what the levels measured make likely (a grid,
 * with a half-Cauchy prior scaled to common practice, so that few levels do not pretend to be
 * alike), then true offsets, then the means that measuring everything would give. From these the
 * spread is found again by maximum likelihood, tested, and the predicted offsets are trimmed as
 * {@link Decisions} does.
 */
final class EnoughLevels {
  private static final int GRID = 24;

  private final double[] mean;
  private final int[] n;
  private final int[] all;
  private final double scatter2;
  private final double[] tau2 = new double[GRID];
  private final double[] weight = new double[GRID];
  private final double criticalLr;

  /** What today's analysis says of one level. */
  record Today(String level, double offset, double trim, double plus, double band, boolean fixed) {}

  /**
   * A family.
   *
   * @param mean mean of each level so far (NaN where none)
   * @param n placements behind it
   * @param all placements when everything is measured
   * @param scatter2 variance of one placement
   * @param usual spread that common practice has
   * @param alpha level of the test
   */
  EnoughLevels(double[] mean, int[] n, int[] all, double scatter2, double usual, double alpha) {
    this.mean = mean;
    this.n = n;
    this.all = all;
    this.scatter2 = scatter2;
    criticalLr = Tails.chiSquareQuantile(1 - 2 * Math.min(alpha, 0.49), 1);
    double largest = 4 * usual;
    for (int l = 0; l < mean.length; l++) {
      largest = Double.isNaN(mean[l]) ? largest : Math.max(largest, 2 * Math.abs(mean[l]));
    }
    double total = 0;
    double[] log = new double[GRID];
    double best = Double.NEGATIVE_INFINITY;
    for (int g = 0; g < GRID; g++) {
      double tau = largest * g / (GRID - 1) * g / (GRID - 1);
      tau2[g] = tau * tau;
      double width = largest * (2.0 * g + 1) / ((GRID - 1.0) * (GRID - 1));
      log[g] =
          logLikelihood(mean, n, tau2[g], scatter2)
              - Math.log1p(tau2[g] / (usual * usual))
              + Math.log(width);
      best = Math.max(best, log[g]);
    }
    for (int g = 0; g < GRID; g++) {
      weight[g] = Math.exp(log[g] - best);
      total += weight[g];
    }
    for (int g = 0; g < GRID; g++) {
      weight[g] /= total;
    }
  }

  private static double logLikelihood(double[] m, int[] count, double tau2, double s2) {
    double l = 0;
    for (int k = 0; k < m.length; k++) {
      if (count[k] > 0) {
        double v = tau2 + s2 / count[k];
        l -= 0.5 * (Math.log(v) + m[k] * m[k] / v);
      }
    }
    return l;
  }

  private double drawTau2(Random random) {
    double u = random.nextDouble();
    for (int g = 0; g < GRID; g++) {
      u -= weight[g];
      if (u <= 0) {
        return tau2[g];
      }
    }
    return tau2[GRID - 1];
  }

  /**
   * Draws.
   *
   * @param today what stands today, by level
   * @param step step of the entries
   * @param df degrees of freedom of the scatter
   * @return for each level chance of change and standard deviation of the true offset; last row:
   *     the chance that any changes
   */
  double[][] draw(List<Today> today, double step, double df) {
    int levels = mean.length;
    int[] changed = new int[levels];
    double[] sum = new double[levels];
    double[] squares = new double[levels];
    int any = 0;
    Random random = new Random(Enough.SEED + 1);
    double[] then = new double[levels];
    for (int i = 0; i < Enough.DRAWS; i++) {
      double g = Enough.scatterFactor(random, df);
      double s2 = scatter2 * g * g;
      double t2 = drawTau2(random);
      for (int l = 0; l < levels; l++) {
        double v = n[l] == 0 ? t2 : t2 / (1 + n[l] * t2 / s2);
        double m = n[l] == 0 ? 0 : mean[l] * t2 / (t2 + s2 / n[l]);
        double truth = m + Math.sqrt(v) * random.nextGaussian();
        sum[l] += truth;
        squares[l] += truth * truth;
        int rest = all[l] - n[l];
        double fresh = rest == 0 ? 0 : truth + Math.sqrt(s2 / rest) * random.nextGaussian();
        double seen = n[l] == 0 ? 0 : mean[l] * n[l];
        then[l] = all[l] == 0 ? 0 : (seen + fresh * rest) / all[l];
      }
      any += judge(today, step, then, s2, changed) ? 1 : 0;
    }
    double[][] out = new double[levels + 1][];
    for (int l = 0; l < levels; l++) {
      double mu = sum[l] / Enough.DRAWS;
      double sd = Math.sqrt(Math.max(0, squares[l] / Enough.DRAWS - mu * mu));
      out[l] = new double[] {changed[l] / (double) Enough.DRAWS, sd};
    }
    out[levels] = new double[] {any / (double) Enough.DRAWS};
    return out;
  }

  private boolean judge(List<Today> today, double step, double[] then, double s2, int[] changed) {
    double bestLog = Double.NEGATIVE_INFINITY;
    double best = 0;
    double none = 0;
    for (int g = 0; g < GRID; g++) {
      double l = logLikelihood(then, all, tau2[g], s2);
      none = g == 0 ? l : none;
      if (l > bestLog) {
        bestLog = l;
        best = tau2[g];
      }
    }
    boolean pass = 2 * (bestLog - none) > criticalLr;
    boolean any = false;
    for (int l = 0; l < then.length; l++) {
      Today d = today.get(l);
      if (d.fixed() || all[l] == n[l] && n[l] == 0) {
        continue;
      }
      double v = then[l] * best / (best + s2 / Math.max(1, all[l])) + d.plus();
      double trim = pass && Math.abs(v) > d.band() ? Step.round(-v, step) : 0;
      if (Math.abs(trim - d.trim()) > d.band()) {
        changed[l]++;
        any = true;
      }
    }
    return any;
  }

  /** How many more of a level until what is still to come fits into the band. */
  int more(int l, double band) {
    double t2 = 0;
    for (int g = 0; g < GRID; g++) {
      t2 += weight[g] * tau2[g];
    }
    t2 = Math.max(t2, 1e-30);
    double last = 1 / (1 / t2 + all[l] / scatter2);
    for (int m = 1; m < all[l] - n[l]; m++) {
      double v = 1 / (1 / t2 + (n[l] + m) / scatter2);
      if (Enough.TWO_SIDED * Math.sqrt(Math.max(0, v - last)) <= band) {
        return m;
      }
    }
    return all[l] - n[l];
  }
}
