package org.padtrue.mixed;

import java.util.Arrays;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.numeric.Tails;

/**
 * Variances by group that lean on each other, for any number of groups, few above all.
 *
 * <p>Model: s_k^2 ~ sigma_k^2 chi-square(d_k) / d_k; sigma_k^2 ~ s0^2 d0 / chi-square(d0) as in
 * {@link ScatterPrior}, but for a group that is odd (probability {@value #ODD}, each by itself):
 * that has one degree of freedom in place of d0, its median at s0^2, so that factors of 4 either
 * way in the standard deviation are nothing rare. What the data leave open about s0 and d0 is
 * averaged over, not plugged in: s0 is flat in its logarithm, so that one group alone keeps its s^2
 * and d; d0 is taken as tau = SD of log sigma = sqrt(trigamma(d0 / 2)) / 2 with a half-Cauchy prior
 * (Gelman 2006, Bayesian Anal. 1, 515) of scale {@value #SPREAD}: half of it within a factor of
 * {@code exp(0.5)} = 1.6 from group to group, cut at 0.005 and 2.5. With many groups the average
 * tends to limma's, but for the odd ones that it goes on to allow.
 *
 * <p>The marginal likelihood of s_k^2 is a scaled F (Smyth 2004, section 4); s0 and tau are
 * integrated by adaptive Simpson rules. Deterministic.
 *
 * <p>Variances are in the squared unit of the caller's values.
 *
 * @param variance moderated variances, units of s^2: squared scale of the t distribution with the
 *     same 68 and 95 % points as a new residual of that group
 * @param df its degrees of freedom
 * @param low lower 2.5 % point of the group's variance
 * @param high upper 97.5 % point of the group's variance
 * @param odd probability that the group is odd, given the data
 * @param typical the variance s0^2 that groups have in common: posterior median
 * @param spread tau, the SD of log sigma from group to group: posterior median
 */
public record ModeratedScatter(
    double[] variance,
    double[] df,
    double[] low,
    double[] high,
    double[] odd,
    double typical,
    double spread) {
  static final double ODD = 0.1;
  static final double SPREAD = 0.5;

  /** What is believed before the data: the scale of tau and the probability of an odd group. */
  record Belief(double spread, double odd, double oddDf) {}

  static final Belief BELIEF = new Belief(SPREAD, ODD, 1);

  /**
   * Averages.
   *
   * @param s2 residual variances, one a group; anything where d is 0
   * @param d their degrees of freedom, not negative, not necessarily whole; a group with 0 leans
   *     wholly on the others
   * @throws IllegalArgumentException if lengths differ, no group tells anything, or a number is
   *     negative or not finite
   */
  public static ModeratedScatter of(double[] s2, double[] d) {
    return of(s2, d, BELIEF);
  }

  static ModeratedScatter of(double[] s2, double[] d, Belief belief) {
    ScatterPrior.check(s2, d);
    if (!(Arrays.stream(d).sum() > 0)) {
      throw new IllegalArgumentException("no group has degrees of freedom");
    }
    return average(s2, d, belief);
  }

  private static ModeratedScatter average(double[] s2, double[] d, Belief belief) {
    int n = d.length;
    double unit = 0;
    for (int k = 0; k < n; k++) {
      unit = d[k] > 0 ? Math.max(unit, s2[k]) : unit;
    }
    if (n == 1 || !(unit > 0)) {
      return alone(unit, d);
    }
    double[] x = new double[n];
    for (int k = 0; k < n; k++) {
      x[k] = d[k] > 0 ? s2[k] / unit : 0;
    }
    ModeratedScatter m = new ScatterAverage(x, d.clone(), belief).run();
    for (int k = 0; k < n; k++) {
      m.variance[k] *= unit;
      m.low[k] *= unit;
      m.high[k] *= unit;
    }
    return new ModeratedScatter(m.variance, m.df, m.low, m.high, m.odd, m.typical * unit, m.spread);
  }

  /** One group, or none that differs from nought. */
  private static ModeratedScatter alone(double s2, double[] d) {
    double all = Arrays.stream(d).sum();
    double[] v = new double[d.length];
    double[] df = new double[d.length];
    double[] low = new double[d.length];
    double[] high = new double[d.length];
    Arrays.fill(v, s2);
    Arrays.fill(df, all);
    Arrays.fill(low, all * s2 / Tails.chiSquareQuantile(0.975, all));
    Arrays.fill(high, all * s2 / Tails.chiSquareQuantile(0.025, all));
    return new ModeratedScatter(v, df, low, high, new double[d.length], s2, Double.NaN);
  }
}
