package org.padtrue.enough;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.numeric.Tails;
import org.padtrue.trim.Shrink;
import org.padtrue.trim.Step;

/**
 * A fixed term of one or more components: shift, rotation, scale, array, common, rotation zero.
 *
 * <p>The estimate to come is normal around the present one with variance se(now)^2 - se(all)^2; it
 * is tested, shrunk, held against the dead band and rounded as {@link Decisions} does, and compared
 * with what the present one gives.
 */
final class EnoughFixed {
  final String key;
  final List<String> names;
  final String[] units;
  final double[] now;
  final double[] seNow;

  /** Share of the information that is in, by component. */
  final double[] share;

  /** Effect of one unit at the farthest placement, mm (degrees for rotation zero). */
  final double[] arm;

  /** Root mean square effect of one unit over the placements of a panel, mm. */
  final double[] effect;

  /** Steps of the entries; 0 not rounded. */
  final double[] step;

  /** Variance that measuring more of this panel does not lower, by component. */
  final double[] stays;

  final double band;
  final double critical;

  /** Components are held against the band together rather than one by one. */
  final boolean together;

  EnoughFixed(
      String key,
      List<String> names,
      String[] units,
      double[][] nowSeShareArmStepStays,
      double[] effect,
      double band,
      double alpha,
      boolean together) {
    this.key = key;
    this.names = names;
    this.units = units;
    now = nowSeShareArmStepStays[0];
    seNow = nowSeShareArmStepStays[1];
    share = nowSeShareArmStepStays[2];
    arm = nowSeShareArmStepStays[3];
    step = nowSeShareArmStepStays[4];
    stays = nowSeShareArmStepStays[5];
    this.effect = effect;
    this.band = band;
    critical = Tails.chiSquareQuantile(1 - alpha, now.length);
    this.together = together;
  }

  private double[] trim(double[] e, double[] se) {
    double t2 = 0;
    for (int k = 0; k < e.length; k++) {
      t2 += e[k] * e[k] / Math.max(se[k] * se[k] + stays[k], 1e-30);
    }
    double[] t = new double[e.length];
    // also where something is not known
    if (!(t2 > critical)) {
      return t;
    }
    double keep = Shrink.factor(t2, e.length);
    double worst = 0;
    for (int k = 0; k < e.length; k++) {
      t[k] = -keep * e[k];
      worst = Math.max(worst, Math.abs(t[k]) * arm[k]);
    }
    for (int k = 0; k < e.length; k++) {
      boolean beyond = (together ? worst : Math.abs(t[k]) * arm[k]) > band;
      t[k] = !beyond ? 0 : step[k] > 0 ? Step.round(t[k], step[k]) : t[k];
    }
    return t;
  }

  /**
   * Draws what measuring everything may give.
   *
   * @param n placements used
   * @param left placements not measured
   * @param df degrees of freedom of the scatter
   * @param settleMm what may still come of a number that is settled, one standard deviation, mm
   */
  EnoughFamily draw(int n, int left, double df, double settleMm) {
    int d = now.length;
    // by the same rule as what is to come, so that only what is measured makes a difference
    double[] today = trim(now, seNow);
    double[] square = new double[d];
    double[] moves = new double[Enough.DRAWS];
    Random random = new Random(Enough.SEED + key.hashCode());
    double[] e = new double[d];
    double[] se = new double[d];
    for (int i = 0; i < Enough.DRAWS && left > 0; i++) {
      double g = Enough.scatterFactor(random, df);
      for (int k = 0; k < d; k++) {
        e[k] = now[k] + g * seNow[k] * Math.sqrt(1 - share[k]) * random.nextGaussian();
        se[k] = g * seNow[k] * Math.sqrt(share[k]);
      }
      double[] then = trim(e, se);
      for (int k = 0; k < d; k++) {
        double m = (then[k] - today[k]) * effect[k];
        square[k] += m * m / Enough.DRAWS;
        moves[i] += m * m;
      }
    }
    double t = Tails.t(0.95, df);
    List<EnoughTerm> terms = new ArrayList<>();
    int more = 0;
    for (int k = 0; k < d; k++) {
      terms.add(
          new EnoughTerm(
              names.get(k),
              key,
              null,
              now[k],
              t * Math.sqrt(seNow[k] * seNow[k] + stays[k]),
              units[k],
              Math.sqrt(square[k]),
              n,
              n + left));
      more = Math.max(more, more(k, n, left, settleMm / Math.sqrt(square[k])));
    }
    return new EnoughFamily(terms, moves, Map.of(key, more));
  }

  /**
   * How many more until what is still to come of a number is so much smaller.
   *
   * @param smaller root mean square of what may come then over what may come now
   */
  private int more(int k, int n, int left, double smaller) {
    double open = 1 - share[k];
    for (int m = 1; m < left; m++) {
      // Information grows as the count does.
      if (n / (double) (n + m) - share[k] <= smaller * smaller * open) {
        return m;
      }
    }
    return left;
  }
}
