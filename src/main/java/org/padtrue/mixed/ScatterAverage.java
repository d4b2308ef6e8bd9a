package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.apache.commons.math3.special.Gamma;
import org.padtrue.numeric.AdaptiveSimpson;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.numeric.Tails;
import org.padtrue.numeric.VarianceLattice;

/**
 * The integral behind {@link ModeratedScatter}: nodes in log tau and, for each, in log s0^2; then
 * by group a mixture of scaled inverse chi-squares, laid on a lattice of log sigma^2.
 */
final class ScatterAverage {
  private static final double TAU_MIN = 0.005;
  private static final double TAU_MAX = 2.5;
  private static final int TAU_STARTS = 14;
  private static final double TAU_TOL = 2e-3;
  private static final double SCALE_TOL = 1e-3;
  private static final double[] OUTWARD = {0.5, 1, 2, 3, 5, 8, 12, 18, 27, 40, 60, 90};
  private static final int MOST_STARTS = 16;

  private final double[] s2;
  private final double[] d;
  private final int n;
  private final ModeratedScatter.Belief belief;
  private final double[] oddGammas;
  private final double oddShift;
  private final double[] start;
  private final Map<Double, Place> places = new HashMap<>();

  /**
   * Prepares.
   *
   * @param s2 variances with the largest that tells anything at 1
   * @param d degrees of freedom
   */
  ScatterAverage(double[] s2, double[] d, ModeratedScatter.Belief belief) {
    this.s2 = s2;
    this.d = d;
    this.belief = belief;
    n = d.length;
    // Puts the median of an odd group at s0^2.
    oddShift = Math.log(Tails.chiSquareQuantile(0.5, belief.oddDf()) / belief.oddDf());
    oddGammas = gammas(belief.oddDf());
    start = starts();
  }

  private double[] starts() {
    double[] logs = new double[n];
    int m = 0;
    for (int k = 0; k < n; k++) {
      if (d[k] > 0 && s2[k] > 1e-12) {
        logs[m++] = Math.log(s2[k]);
      }
    }
    Arrays.sort(logs, 0, m);
    TreeSet<Double> at = new TreeSet<>();
    int step = Math.max(1, m / MOST_STARTS);
    for (int i = 0; i < m; i += step) {
      at.add(logs[i]);
    }
    at.add(logs[m - 1]);
    for (double l = logs[0]; l < logs[m - 1]; l += 0.7) {
      at.add(l);
    }
    for (double o : OUTWARD) {
      at.add(logs[0] - o);
      at.add(logs[m - 1] + o);
    }
    return at.stream().mapToDouble(v -> v).toArray();
  }

  private double[] gammas(double d0) {
    double[] g = new double[n];
    for (int k = 0; k < n; k++) {
      g[k] =
          d[k] == 0
              ? 0
              : Gamma.logGamma(0.5 * (d0 + d[k]))
                  - Gamma.logGamma(0.5 * d0)
                  - 0.5 * d[k] * Math.log(d0);
    }
    return g;
  }

  /** A place of tau with the integral over log s0^2 done. */
  private final class Place {
    final double d0;
    final double[] mainGammas;
    final AdaptiveSimpson inner;
    final double log;

    Place(double logTau) {
      double tau = Math.exp(logTau);
      d0 = degreesOfFreedom(tau);
      mainGammas = gammas(d0);
      inner = AdaptiveSimpson.of(this::logLikelihood, start, SCALE_TOL);
      double r = tau / belief.spread();
      // Half-Cauchy in tau; d tau = tau d log tau.
      log = inner.logTotal() + logTau - Math.log1p(r * r);
    }

    double logLikelihood(double l) {

      double small = Math.exp(-l);
      double sum = 0;
      for (int k = 0; k < n; k++) {
        if (d[k] > 0) {
          double a = logMain(k, l, small);
          double b = logOdd(k, l, small);
          sum += a > b ? a + Math.log1p(Math.exp(b - a)) : b + Math.log1p(Math.exp(a - b));
        }
      }
      return sum;
    }

    double logMain(int k, double l, double small) {
      return Math.log1p(-belief.odd())
          + mainGammas[k]
          - 0.5 * d[k] * l
          - 0.5 * (d0 + d[k]) * Math.log1p(d[k] * s2[k] * small / d0);
    }

    double oddShare(int k, double l) {
      double small = Math.exp(-l);
      return 1 / (1 + Math.exp(logMain(k, l, small) - logOdd(k, l, small)));
    }
  }

  private double logOdd(int k, double l, double small) {
    double o = belief.oddDf();
    return Math.log(belief.odd())
        + oddGammas[k]
        - 0.5 * d[k] * (l + oddShift)
        - 0.5 * (o + d[k]) * Math.log1p(d[k] * s2[k] * small * Math.exp(-oddShift) / o);
  }

  private Place place(double logTau) {
    return places.computeIfAbsent(logTau, Place::new);
  }

  static double degreesOfFreedom(double tau) {
    return 2 * ScatterPrior.trigammaInverse(4 * tau * tau);
  }

  ModeratedScatter run() {
    double[] tauStart = new double[TAU_STARTS];
    for (int i = 0; i < TAU_STARTS; i++) {
      tauStart[i] =
          Math.log(TAU_MIN) + i * (Math.log(TAU_MAX) - Math.log(TAU_MIN)) / (TAU_STARTS - 1);
    }
    AdaptiveSimpson outer = AdaptiveSimpson.of(t -> place(t).log, tauStart, TAU_TOL);
    double all = Arrays.stream(d).sum();
    double[] variance = new double[n];
    double[] df = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    double[] odd = new double[n];
    double step = Math.min(0.1, 0.3 * Math.sqrt(2 / all));
    for (int k = 0; k < n; k++) {
      VarianceLattice lattice = new VarianceLattice(step);
      VarianceLattice.Part oddPart = lattice.part(belief.oddDf() + d[k]);
      for (int t = 0; t < outer.x().length; t++) {
        Place p = place(outer.x()[t]);
        VarianceLattice.Part main = lattice.part(p.d0 + d[k]);
        for (int i = 0; i < p.inner.x().length; i++) {
          double l = p.inner.x()[i];
          double w = outer.weight()[t] * p.inner.weight()[i];
          double share = p.oddShare(k, l);
          odd[k] += w * share;
          main.add(w * (1 - share), scale(k, l, p.d0));
          oddPart.add(w * share, scale(k, l + oddShift, belief.oddDf()));
        }
      }
      lattice.close();
      df[k] = Math.min(all, lattice.degreesOfFreedom());
      variance[k] = lattice.variance(df[k]);
      low[k] = lattice.quantile(0.025);
      high[k] = lattice.quantile(0.975);
    }
    return new ModeratedScatter(
        variance,
        df,
        low,
        high,
        odd,
        Math.exp(median(outer, true)),
        Math.exp(median(outer, false)));
  }

  /** log of the posterior scale of a group's variance. */
  private double scale(int k, double l, double d0) {
    return d[k] == 0 ? l : Math.log((d0 * Math.exp(l) + d[k] * s2[k]) / (d0 + d[k]));
  }

  private double median(AdaptiveSimpson outer, boolean ofScale) {
    List<double[]> v = new ArrayList<>();
    for (int t = 0; t < outer.x().length; t++) {
      AdaptiveSimpson in = place(outer.x()[t]).inner;
      for (int i = 0; i < (ofScale ? in.x().length : 1); i++) {
        v.add(
            ofScale
                ? new double[] {in.x()[i], outer.weight()[t] * in.weight()[i]}
                : new double[] {outer.x()[t], outer.weight()[t]});
      }
    }
    v.sort((a, b) -> Double.compare(a[0], b[0]));
    double sum = 0;
    double total = v.stream().mapToDouble(a -> a[1]).sum();
    for (double[] a : v) {
      sum += a[1];
      if (sum >= 0.5 * total) {
        return a[0];
      }
    }
    return v.get(v.size() - 1)[0];
  }
}
