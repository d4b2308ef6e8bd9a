package org.padtrue.mixed;

import org.padtrue.numeric.Tails;

/**
 * Variance of placing: what scatters, less what measuring adds.
 *
 * <p>The difference of an estimated and a stated variance may come out at nought or below, which no
 * machine does. With the total known as total X / df, X ~ chi-square(df), what is given is the mean
 * of the difference over those totals that exceed the measuring variance m: total (1 - F(df + 2)) /
 * (1 - F(df)) - m, F the chi-square distribution function at c = m df / total. A stated uncertainty
 * that is larger than all that scatters cannot be independent noise (an error that all placements
 * share is in it, or it is overstated): then, from a chance of 5 % on and wholly at 0.5 %, nothing
 * is taken off.
 *
 * <p>Variances are in the squared unit of the caller's values.
 */
public final class Placing {
  private static final double DOUBT = 0.05;
  private static final double AT_ODDS = 0.005;

  private Placing() {}

  /** Chance that independent noise of the stated variance alone scatters as little as this. */
  private static double chance(double total, double df, double measuring) {
    return 1 - Tails.chiSquare(df * total / measuring, df);
  }

  /**
   * Variance of placing.
   *
   * @param total estimated variance, measuring included
   * @param df its degrees of freedom
   * @param measuring stated variance of measuring; NaN or 0 when not stated
   * @return positive where {@code total} is
   */
  public static double variance(double total, double df, double measuring) {
    if (!(measuring > 0) || !(total > 0) || !(df > 0)) {
      return total;
    }
    double c = measuring * df / total;
    double above = Tails.chiSquare(c, df);
    double excess = above > 1e-12 ? total * Tails.chiSquare(c, df + 2) / above - measuring : 0;
    double p = total < measuring ? chance(total, df, measuring) : 1;
    double odds =
        p >= DOUBT
            ? 0
            : Math.min(1, Math.log(DOUBT / Math.max(p, 1e-300)) / Math.log(DOUBT / AT_ODDS));
    return Math.min(total, Math.max(0, excess) + odds * (total - Math.max(0, excess)));
  }
}
