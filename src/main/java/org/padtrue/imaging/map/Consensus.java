package org.padtrue.imaging.map;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.BinomialDistribution;

/**
 * The most point pairs that one similarity, or one shift, explains, and how likely chance explains
 * as many: random sample consensus (Fischler and Bolles 1981) over all pairs of points instead of
 * random ones, since there are a few dozen only.
 *
 * @param agreeing those within the tolerance of the best one
 * @param of how many were asked
 * @param fixing how many points fix what is tried: two a similarity, one a shift
 */
public record Consensus(List<MapFit.Pair> agreeing, int of, int fixing) {
  public Consensus {
    agreeing = List.copyOf(agreeing);
  }

  /**
   * Finds it.
   *
   * @param mirrored whether the panel is seen through from behind
   * @param tolerancePx how far from the similarity a point may be
   */
  public static Consensus of(List<MapFit.Pair> pairs, boolean mirrored, double tolerancePx) {
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
    return new Consensus(out, n, 2);
  }

  /**
   * The most pairs that are off by the same, in units of the pairs, where panel and picture have
   * one frame.
   */
  public static Consensus ofShift(List<MapFit.Pair> pairs, double tolerance) {
    List<MapFit.Pair> best = List.of();
    for (MapFit.Pair lead : pairs) {
      List<MapFit.Pair> in =
          pairs.stream()
              .filter(
                  p ->
                      Math.hypot(
                              p.xPx() - p.xMm() - lead.xPx() + lead.xMm(),
                              p.yPx() - p.yMm() - lead.yPx() + lead.yMm())
                          < tolerance)
              .toList();
      best = in.size() > best.size() ? in : best;
    }
    return new Consensus(best, pairs.size(), 1);
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
   * Bound on the probability that so many agree by chance: number of maps tried times the binomial
   * tail of the points beyond those that fix each.
   *
   * @param share chance that one point lies within the tolerance of a wrong map
   */
  public double byChance(double share) {
    int k = agreeing.size();
    if (k <= fixing) {
      return 1;
    }
    double tail =
        1
            - new BinomialDistribution(null, of - fixing, share)
                .cumulativeProbability(k - fixing - 1);
    double tried = fixing == 1 ? of : of * (of - 1) / 2.0;
    return Math.min(1, tried * Math.max(0, tail));
  }
}
