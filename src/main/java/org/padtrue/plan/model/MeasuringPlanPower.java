package org.padtrue.plan.model;

import java.util.Arrays;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.GammaDistribution;

/**
 * How large an offset has to be to be found nine times in ten.
 *
 * <p>An analysis tests families of terms (all part types along x, say), not single ones, and holds
 * the false findings of all families to 5 % (Benjamini and Hochberg 1995). Where one term alone is
 * off, its family has to reach 5 % divided by the number of families. The family's statistic is
 * then about chi-square with as many degrees of freedom as the family has terms that can differ,
 * and non-centrality (offset / standard error)^2. Where more is off, less is needed.
 */
public final class MeasuringPlanPower {
  static final double POWER = 0.9;
  private static final double LEVEL = 0.05;
  private static final int BISECTIONS = 60;
  private static final double NEGLIGIBLE = 1e-12;

  private MeasuringPlanPower() {}

  /**
   * Ratio of offset to standard error at which a term is found with {@link #POWER}.
   *
   * @param terms terms of its family that can differ, 1 or more
   * @param families families tested together, 1 or more
   */
  public static double size(int terms, int families) {
    double critical =
        new ChiSquaredDistribution(null, terms).inverseCumulativeProbability(1 - LEVEL / families);
    Central central = new Central(terms, critical);
    double low = 0;
    double high = 1;
    while (power(high, central) < POWER) {
      high *= 2;
    }
    for (int i = 0; i < BISECTIONS; i++) {
      double middle = (low + high) / 2;
      if (power(middle, central) < POWER) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return Math.sqrt(high);
  }

  /** Tail of the non-central chi-square: central ones mixed by Poisson weights. */
  private static double power(double nonCentrality, Central central) {
    double half = nonCentrality / 2;
    double weight = Math.exp(-half);
    double rest = 1;
    double tail = 0;
    for (int j = 0; rest > NEGLIGIBLE && (j < half || weight > NEGLIGIBLE); j++) {
      tail += weight * central.tail(j);
      rest -= weight;
      weight *= half / (j + 1);
    }
    return tail + Math.max(0, rest);
  }

  /** Tails of central chi-squares, two degrees of freedom apart, beyond one value; kept. */
  private static final class Central {
    private final int terms;
    private final double critical;
    private double[] known = new double[0];

    Central(int terms, double critical) {
      this.terms = terms;
      this.critical = critical;
    }

    double tail(int j) {
      while (known.length <= j) {
        int n = known.length;
        known = Arrays.copyOf(known, n + 1);
        // The library's own chi-square seeds a random generator each time.
        known[n] =
            1
                - new GammaDistribution(null, (terms + 2.0 * n) / 2, 2)
                    .cumulativeProbability(critical);
      }
      return known[j];
    }
  }
}
