package org.padtrue.gauge;

import org.apache.commons.math3.distribution.FDistribution;

/**
 * Analysis of variance of a balanced crossed study: parts x operators x repeats, all random.
 *
 * <p>Expected mean squares: error s2; interaction s2 + r i2; operator s2 + r i2 + p r o2; part s2 +
 * r i2 + o r p2 (any text on variance components). The interaction is pooled with the error when
 * its F test has p above 0.25 (the rule for sometimes-pooling of Bancroft 1964, Biometrics 20,
 * customary in gauge studies), or when without repeats it cannot be told from it. With one operator
 * this is the one-way analysis, with one part the one-way analysis over operators.
 *
 * <p>Where each repeat is a session that read all placements, sessions within operators have a mean
 * square of their own, s2 + p g2, g2 from registering the panel anew. When it stands out (p below
 * 0.05) it is split off: left in the error, it would also pass for a difference between operators.
 * Otherwise the analysis is the usual one.
 *
 * <p>Mean squares are in the squared unit of the readings, components in the unit itself; F, p and
 * degrees of freedom are pure numbers.
 *
 * @param part line of the parts
 * @param operator line of the operators
 * @param interaction line of the interaction
 * @param session line of the sessions; without degrees of freedom where there are none
 * @param error line of the repeats, interaction pooled in when so decided
 * @param pooled true when the interaction was pooled
 * @param sessionSplit true when sessions stand out and are split off the error
 * @param repeatabilityDegreesOfFreedom behind the repeatability (Satterthwaite where it is a sum)
 * @param components standard deviations
 */
public record GaugeAnova(
    Line part,
    Line operator,
    Line interaction,
    Line session,
    Line error,
    boolean pooled,
    boolean sessionSplit,
    double repeatabilityDegreesOfFreedom,
    GaugeComponents components) {

  /** Interactions with a larger p are pooled with the error. */
  public static final double POOL_ABOVE = 0.25;

  /** Sessions with a smaller p are split off the error. */
  public static final double SPLIT_BELOW = 0.05;

  /**
   * One line of the table.
   *
   * @param degreesOfFreedom 0 when the factor has one level
   * @param meanSquare NaN without degrees of freedom
   * @param f ratio to what it is tested against, NaN when it cannot be tested
   * @param p tail probability of f
   */
  public record Line(double degreesOfFreedom, double meanSquare, double f, double p) {
    static final Line NONE = new Line(0, Double.NaN, Double.NaN, Double.NaN);

    static Line of(double df, double ms, double againstMs, double againstDf) {
      if (!(df > 0)) {
        return NONE;
      }
      if (!(againstDf > 0) || !(againstMs > 0)) {
        return new Line(df, ms, Double.NaN, Double.NaN);
      }
      double f = ms / againstMs;
      double p = 1 - new FDistribution(null, df, againstDf).cumulativeProbability(f);
      return new Line(df, ms, f, p);
    }
  }
}
