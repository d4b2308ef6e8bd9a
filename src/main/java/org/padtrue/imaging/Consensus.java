package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.BinomialDistribution;

/**
 * The most point pairs that one similarity explains, and how likely chance explains as many: random
 * sample consensus (Fischler and Bolles 1981) over all pairs of points instead of random ones,
 * since there are a few dozen only.
 *
 * @param agreeing those within the tolerance of the best similarity
 * @param of how many were asked
 */
record Consensus(List<MapFit.Pair> agreeing, int of) {
  Consensus {
    agreeing = List.copyOf(agreeing);
  }

  /**
   * Finds it.
   *
   * @param mirrored whether the panel is seen through from behind
   * @param tolerancePx how far from the similarity a point may be
   */
  static Consensus of(List<MapFit.Pair> pairs, boolean mirrored, double tolerancePx) {
    int n = pairs.size();
    double sy = mirrored ? 1 : -1;
    boolean[] best = new boolean[n];
    int most = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        boolean[] in = within(pairs, pairs.get(i), pairs.get(j), sy, tolerancePx);
        int count = 0;
        for (boolean b : in) {
          count += b ? 1 : 0;
        }
        if (count > most) {
          most = count;
          best = in;
        }
      }
    }
    List<MapFit.Pair> out = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (best[i]) {
        out.add(pairs.get(i));
      }
    }
    return new Consensus(out, n);
  }

  /** Which points lie within the tolerance of the similarity through two of them. */
  private static boolean[] within(
      List<MapFit.Pair> pairs, MapFit.Pair a, MapFit.Pair b, double sy, double tolerancePx) {
    double ux = b.xMm() - a.xMm();
    double uy = b.yMm() - a.yMm();
    double vx = b.xPx() - a.xPx();
    double vy = sy * (b.yPx() - a.yPx());
    double d2 = ux * ux + uy * uy;
    double c = (ux * vx + uy * vy) / d2;
    double s = (ux * vy - uy * vx) / d2;
    boolean[] in = new boolean[pairs.size()];
    for (int k = 0; k < in.length; k++) {
      MapFit.Pair p = pairs.get(k);
      double x = p.xMm() - a.xMm();
      double y = p.yMm() - a.yMm();
      double ex = a.xPx() + c * x - s * y - p.xPx();
      double ey = a.yPx() + sy * (s * x + c * y) - p.yPx();
      in[k] = ex * ex + ey * ey < tolerancePx * tolerancePx;
    }
    return in;
  }

  /**
   * Bound on the probability that so many agree by chance: number of similarities tried times the
   * binomial tail of the points beyond the two that fix each.
   *
   * @param share chance that one point lies within the tolerance of a wrong map
   */
  double byChance(double share) {
    int k = agreeing.size();
    if (k <= 2) {
      return 1;
    }
    double tail = 1 - new BinomialDistribution(null, of - 2, share).cumulativeProbability(k - 3);
    return Math.min(1, of * (of - 1) / 2.0 * Math.max(0, tail));
  }
}
