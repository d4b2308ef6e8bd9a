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
  private final double[] scatter2;
  private final double[] tau2 = new double[GRID];
  private final double[] weight = new double[GRID];
  private final double criticalLr;
  private double[] now = {};

  /**
   * What today's analysis says of one level.
   *
   * @param level its name
   * @param offset as predicted, mm or degrees
   * @param plus what all levels share and is entered with each
   * @param band within which nothing is entered
   * @param effect root mean square over the placements of a panel of one unit of it, mm
   * @param fixed true when nothing is entered whatever is found
   */
  record Today(
      String level, double offset, double plus, double band, double effect, boolean fixed) {}

  /**
   * What may come.
   *
   * @param movesMm by level: root mean square of what changes, over the placements of a panel, mm
   * @param sd by level: standard deviation of its true offset
   * @param moves by draw: mean square over the placements of a panel, mm^2
   */
  record Drawn(double[] movesMm, double[] sd, double[] moves) {}

  /**
   * A family.
   *
   * @param mean mean of each level so far (NaN where none)
   * @param n placements behind it
   * @param all placements when everything is measured
   * @param scatter2 variance of one placement, by level
   * @param usual spread that common practice has
   * @param alpha level of the test
   */
  EnoughLevels(double[] mean, int[] n, int[] all, double[] scatter2, double usual, double alpha) {
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
          logLikelihood(mean, n, tau2[g], scatter2, 1)
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

  private static double logLikelihood(
      double[] m, int[] count, double tau2, double[] s2, double factor) {
    double l = 0;
    for (int k = 0; k < m.length; k++) {
      if (count[k] > 0) {
        double v = tau2 + factor * s2[k] / count[k];
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
   * @param seed of the draws
   */
  Drawn draw(List<Today> today, double step, double df, long seed) {
    int levels = mean.length;
    double[] changed = new double[levels];
    double[] sum = new double[levels];
    double[] squares = new double[levels];
    double[] moves = new double[Enough.DRAWS];
    Random random = new Random(seed);
    double[] then = new double[levels];
    // by the same rule as what is to come, so that only what is measured makes a difference
    now = trims(today, step, mean, n, 1);
    for (int i = 0; i < Enough.DRAWS; i++) {
      double g = Enough.scatterFactor(random, df);
      double t2 = drawTau2(random);
      for (int l = 0; l < levels; l++) {
        double s2 = scatter2[l] * g * g;
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
      moves[i] = moved(today, step, then, g * g, changed);
    }
    double[] sd = new double[levels];
    for (int l = 0; l < levels; l++) {
      double mu = sum[l] / Enough.DRAWS;
      sd[l] = Math.sqrt(Math.max(0, squares[l] / Enough.DRAWS - mu * mu));
      changed[l] = Math.sqrt(changed[l] / Enough.DRAWS);
    }
    return new Drawn(changed, sd, moves);
  }

  /** Mean square of what the means to come would place otherwise, mm^2; added up by level too. */
  private double moved(
      List<Today> today, double step, double[] then, double factor, double[] changed) {
    double[] trims = trims(today, step, then, all, factor);
    double total = 0;
    for (int l = 0; l < then.length; l++) {
      double m = (trims[l] - now[l]) * today.get(l).effect();
      changed[l] += m * m;
      total += m * m;
    }
    return total;
  }

  /** What would be entered for means of so many placements each. */
  private double[] trims(
      List<Today> today, double step, double[] means, int[] count, double factor) {
    double bestLog = Double.NEGATIVE_INFINITY;
    double best = 0;
    double none = 0;
    for (int g = 0; g < GRID; g++) {
      double l = logLikelihood(means, count, tau2[g], scatter2, factor);
      none = g == 0 ? l : none;
      if (l > bestLog) {
        bestLog = l;
        best = tau2[g];
      }
    }
    boolean pass = 2 * (bestLog - none) > criticalLr;
    double[] out = new double[means.length];
    for (int l = 0; l < means.length; l++) {
      Today d = today.get(l);
      if (d.fixed() || count[l] == 0 || !pass) {
        continue;
      }
      double v = means[l] * best / (best + factor * scatter2[l] / count[l]) + d.plus();
      out[l] = Math.abs(v) > d.band() ? Step.round(-v, step) : 0;
    }
    return out;
  }

  /**
   * How many more of a level until what is still to come of it is so much smaller.
   *
   * @param smaller root mean square of what may come then over what may come now
   */
  int more(int l, double smaller) {
    double t2 = 0;
    for (int g = 0; g < GRID; g++) {
      t2 += weight[g] * tau2[g];
    }
    t2 = Math.max(t2, 1e-30);
    double last = 1 / (1 / t2 + all[l] / scatter2[l]);
    double open = 1 / (1 / t2 + n[l] / scatter2[l]) - last;
    for (int m = 1; m < all[l] - n[l]; m++) {
      double v = 1 / (1 / t2 + (n[l] + m) / scatter2[l]);
      if (v - last <= smaller * smaller * open) {
        return m;
      }
    }
    return all[l] - n[l];
  }
}
