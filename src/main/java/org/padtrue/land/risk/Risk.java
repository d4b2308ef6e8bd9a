package org.padtrue.land.risk;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.distribution.TDistribution;
import org.padtrue.land.LandFit;
import org.padtrue.numeric.Probability;

/**
 * Probability that a placement is outside its limits, for a normal or t distributed deviation.
 *
 * <p>Method. Given the rotation (and, for a t, the common scale), the shifts that are inside form a
 * rectangle, and its probability is exact (bivariate normal tails). What is left, one or two
 * dimensions, is averaged over Sobol points from Commons Math. Balls have circles instead: then one
 * shift is a Sobol coordinate too and the other is exact along its chord. Rare events: once the
 * mean is well inside, rotation (and shift) are drawn from a normal twice as wide and weighted
 * back, so a probability of 1e-6 rests on many points, each with an exact tail. Points are doubled,
 * from 16 to 2048 in each of eight randomly shifted replicates, until the scatter of the replicates
 * is below 2 % of the value; that scatter is the stated error.
 *
 * <p>When a simple bound (each coordinate within k standard deviations keeps the part inside) shows
 * the probability to be below {@link #NEGLIGIBLE}, it is reported as 0 with that bound.
 *
 * <p>Inputs are rounded (means to 0.01 um and 0.0001 degrees, spreads and correlations to 0.01 %)
 * and results kept by the rounded input, so equal placements cost nothing and the result does not
 * depend on the order of calls. Safe to share between threads.
 */
public final class Risk {
  /** Probabilities below this are reported as 0. */
  public static final double NEGLIGIBLE = 1e-8;

  /** Standard error that is good enough whatever the value. */
  static final double SMALL = 5e-8;

  static final double RELATIVE_ERROR = 0.02;
  static final double RELATIVE_ERROR_OF_RARE = 0.05;

  private final Map<RiskCase, Probability> known = new ConcurrentHashMap<>();
  private final boolean coarse;
  private final Map<Double, Double> safe = new ConcurrentHashMap<>();

  /** To the accuracy of the class comment. */
  public Risk() {
    this(false);
  }

  /**
   * Fine or coarse.
   *
   * @param coarse true where sums over many truths are wanted and single values are not shown: one
   *     pass of few points
   */
  public Risk(boolean coarse) {
    this.coarse = coarse;
  }

  /**
   * Probability of being outside.
   *
   * @param fit the judge of the part type; keep one per type, results are kept by it
   * @param d distribution of the deviation in the part frame
   */
  public Probability outside(LandFit fit, DeviationDistribution d) {
    if (!fit.judged() || Double.isNaN(d.dxMm()) || Double.isNaN(d.dyMm())) {
      return Probability.UNKNOWN;
    }
    RiskCase c = RiskCase.of(fit, d);
    if (coarse) {
      // Truths are drawn: none comes twice.
      return compute(c);
    }
    Probability p = known.get(c);
    if (p == null) {
      p = compute(c);
      known.put(c, p);
    }
    return p;
  }

  private Probability compute(RiskCase c) {
    double k = c.safeSigmas();
    if (k >= safe.computeIfAbsent(c.degreesOfFreedom(), Risk::negligibleBeyond)) {
      return new Probability(0, NEGLIGIBLE, 0);
    }
    RiskIntegral integral = new RiskIntegral(c, k < 1 ? 1 : k < 4 ? 2 : 3);
    return coarse ? integral.coarse() : integral.estimate();
  }

  /** The k at which six tails (three coordinates, two sides) sum to what is negligible. */
  private static double negligibleBeyond(double df) {
    if (Double.isInfinite(df)) {
      return 6.05; // 6 P(Z > 6.05) = 4.4e-9
    }
    return -new TDistribution(null, df).inverseCumulativeProbability(NEGLIGIBLE / 6);
  }
}
