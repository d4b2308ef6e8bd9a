package org.padtrue.numeric;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

/**
 * The prior of variances from winsorised moments of their logarithms, robust to groups that stand
 * out (Phipson et al. 2016, sections 3 and 4). A twentieth is drawn in below, a tenth above.
 */
final class WinsorisedScatter {
  private static final double BELOW = 0.05;
  private static final double ABOVE = 0.1;
  private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(128, 0, 1);

  private WinsorisedScatter() {}

  /**
   * Estimates.
   *
   * @param s2 variances, three or more
   * @param d their degrees of freedom, all positive
   * @param plain the estimate by plain moments: the robust one has no fewer degrees of freedom
   */
  static ScatterPrior estimate(double[] s2, double[] d, ScatterPrior plain) {
    int n = s2.length;
    double median = Order.median(s2);
    if (n < 1 / ABOVE && n < 1 / BELOW || !(median > 0)) {
      return plain;
    }
    double df1 = Arrays.stream(d).max().orElseThrow();
    double[] z = new double[n];
    for (int k = 0; k < n; k++) {
      double x = Math.max(s2[k], 1e-12 * median);
      z[k] = Math.log(d[k] < df1 - 1e-14 ? sameTail(x, d[k], df1, plain) : x);
    }
    double[] sorted = z.clone();
    Arrays.sort(sorted);
    int cut = (int) (ABOVE * n);
    double centre = Arrays.stream(sorted, cut, n - cut).average().orElseThrow();
    double low = quantile(sorted, BELOW);
    double high = quantile(sorted, 1 - ABOVE);
    double mean = 0;
    for (double v : z) {
      mean += (Math.min(Math.max(v, low), high) - centre) / n;
    }
    double variance = 0;
    for (double v : z) {
      double r = Math.min(Math.max(v, low), high) - centre - mean;
      variance += r * r / (n - 1);
    }
    if (Double.isInfinite(plain.df()) && variance > moments(df1, Double.POSITIVE_INFINITY)[1]) {
      return plain;
    }
    double df = degreesOfFreedom(variance, df1, plain.df());
    double scale = Math.exp(centre + mean - moments(df1, df)[0]);
    return new ScatterPrior(scale, df, byGroup(z, df1, scale, df));
  }

  /** Linear between order statistics (Hyndman and Fan 1996, type 7). */
  private static double quantile(double[] sorted, double p) {
    double h = (sorted.length - 1) * p;
    int i = Math.min((int) h, sorted.length - 2);
    return sorted[i] + (h - i) * (sorted[i + 1] - sorted[i]);
  }

  /** The variance with df1 degrees of freedom that lies as far out in the tail. */
  private static double sameTail(double x, double d, double df1, ScatterPrior p) {
    double f = x / p.scale();
    double up = FisherTails.logUpper(f, d, p.df());
    double down = FisherTails.logLower(f, d, p.df());
    return p.scale() * FisherTails.quantile(Math.min(up, down), df1, p.df(), up < down);
  }

  private static double degreesOfFreedom(double variance, double df1, double least) {
    if (variance <= moments(df1, Double.POSITIVE_INFINITY)[1]) {
      return Double.POSITIVE_INFINITY;
    }
    UnivariateFunction excess = t -> Math.log(variance / moments(df1, t / (1 - t))[1]);
    double from = least / (1 + least);
    if (excess.value(from) >= 0) {
      return least;
    }
    double to = 0.5 * (1 + from);
    while (excess.value(to) < 0) {
      to = 0.5 * (1 + to);
      if (1 - to < 1e-9) {
        return Double.POSITIVE_INFINITY;
      }
    }
    double t = new BrentSolver(1e-14, 1e-15).solve(500, excess, from, to);
    return t / (1 - t);
  }

  /** Mean and variance of log F, winsorised; the integral runs over F / (1 + F). */
  private static double[] moments(double df1, double df2) {
    double f0 = FisherTails.quantile(Math.log(BELOW), df1, df2, false);
    double f1 = FisherTails.quantile(Math.log(ABOVE), df1, df2, true);
    double from = f0 / (1 + f0);
    double width = f1 / (1 + f1) - from;
    double mean =
        width * RULE.integrate(t -> density(from + width * t, df1, df2, 0, 1))
            + BELOW * Math.log(f0)
            + ABOVE * Math.log(f1);
    double variance =
        width * RULE.integrate(t -> density(from + width * t, df1, df2, mean, 2))
            + BELOW * Math.pow(Math.log(f0) - mean, 2)
            + ABOVE * Math.pow(Math.log(f1) - mean, 2);
    return new double[] {mean, variance};
  }

  private static double density(double t, double df1, double df2, double mean, int power) {
    double f = t / (1 - t);
    return Math.exp(FisherTails.logDensity(f, df1, df2))
        / ((1 - t) * (1 - t))
        * Math.pow(Math.log(f) - mean, power);
  }

  /** A group that stands out more than its rank explains leans less on the prior. */
  private static double[] byGroup(double[] z, double df1, double scale, double df) {
    int n = z.length;
    double[] tail = new double[n];
    double[] probability = new double[n];
    for (int k = 0; k < n; k++) {
      tail[k] = FisherTails.logUpper(Math.exp(z[k]) / scale, df1, df);
    }
    boolean odd = false;
    for (int k = 0; k < n; k++) {
      double rank = 0.5;
      for (double v : z) {
        rank += v < z[k] ? 1 : v == z[k] ? 0.5 : 0;
      }
      probability[k] = Math.exp(Math.min(0, tail[k] - Math.log((n - rank + 0.5) / n)));
      odd |= probability[k] < 1;
    }
    double[] by = new double[n];
    Arrays.fill(by, df);
    if (!odd) {
      return by;
    }
    int[] order =
        IntStream.range(0, n)
            .boxed()
            .sorted(Comparator.comparingDouble(k -> tail[k]))
            .mapToInt(k -> k)
            .toArray();
    if (Double.isInfinite(df)) {
      // No end of degrees of freedom: one that stands out keeps those of all groups pooled.
      for (int k = 0; k < n; k++) {
        by[k] = probability[k] < 1 ? probability[k] * n * df1 : df;
      }
    } else {
      // The degrees of freedom at which the farthest would be a median.
      double least = tail[order[0]];
      double far = Math.log(0.5) / least * df;
      double most = Math.exp(z[order[0]]) / scale;
      far *= Math.log(0.5) / FisherTails.logUpper(most, df1, far);
      double sum = 0;
      double lowest = Double.POSITIVE_INFINITY;
      int until = 0;
      for (int i = 0; i < n; i++) {
        int k = order[i];
        by[k] = probability[k] * df + (1 - probability[k]) * far;
        sum += by[k];
        if (sum / (i + 1) < lowest) {
          lowest = sum / (i + 1);
          until = i;
        }
      }
      for (int i = 0; i <= until; i++) {
        by[order[i]] = lowest;
      }
    }
    for (int i = 1; i < n; i++) {
      by[order[i]] = Math.max(by[order[i]], by[order[i - 1]]);
    }
    return by;
  }
}
