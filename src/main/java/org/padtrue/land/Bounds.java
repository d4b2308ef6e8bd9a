package org.padtrue.land;

import java.util.Arrays;

/**
 * One-sided bounds on the shift of a part along one axis, as functions of its rotation.
 *
 * <p>A termination with centre (cx, cy) and half sides (hx, hy), turned by a, has its centre at c =
 * cx cos a - cy sin a along x and reaches e = hx |cos a| + hy |sin a| to either side of it. An
 * upper bound says c + shift + k e &lt;= b, a lower one c + shift - k e &gt;= b, where k = 1 speaks
 * of the edge that leads and k = -1 of the one that follows. Along y the same with (cy, cx) and the
 * sine reversed. All in mm, flat arrays: this is the inner loop.
 */
final class Bounds {
  private final boolean upper;
  private double[] a = new double[0];
  private double[] b = new double[0];
  private double[] reachA = new double[0];
  private double[] reachB = new double[0];
  private double[] limit = new double[0];

  Bounds(boolean upper) {
    this.upper = upper;
  }

  /**
   * Adds a bound.
   *
   * @param along coordinate of the termination's centre along the axis
   * @param across coordinate along the other axis, with the sign that the sine takes
   * @param halfAlong half side along the axis
   * @param halfAcross half side along the other
   * @param edge 1 leading edge, -1 following edge
   * @param at position that the edge must not pass
   */
  void add(double along, double across, double halfAlong, double halfAcross, int edge, double at) {
    int n = a.length;
    a = Arrays.copyOf(a, n + 1);
    b = Arrays.copyOf(b, n + 1);
    reachA = Arrays.copyOf(reachA, n + 1);
    reachB = Arrays.copyOf(reachB, n + 1);
    limit = Arrays.copyOf(limit, n + 1);
    a[n] = along;
    b[n] = across;
    reachA[n] = edge * halfAlong;
    reachB[n] = edge * halfAcross;
    limit[n] = at;
  }

  /** Drops bounds that never are the tightest. */
  void prune() {
    double[][] alike = new double[a.length][];
    for (int i = 0; i < a.length; i++) {
      alike[i] = new double[] {limit[i] - a[i], reachA[i], reachB[i]};
    }
    int[] keep = Outermost.of(a, b, alike);
    a = pick(a, keep);
    b = pick(b, keep);
    reachA = pick(reachA, keep);
    reachB = pick(reachB, keep);
    limit = pick(limit, keep);
  }

  private static double[] pick(double[] from, int[] keep) {
    return Arrays.stream(keep).mapToDouble(i -> from[i]).toArray();
  }

  int size() {
    return a.length;
  }

  /** The tightest bound on the shift at a rotation with this cosine and sine, mm. */
  double at(double cos, double sin) {
    double ac = Math.abs(cos);
    double as = Math.abs(sin);
    double best = upper ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    for (int i = 0; i < a.length; i++) {
      double centre = cos * a[i] + sin * b[i];
      double reach = reachA[i] * ac + reachB[i] * as;
      best =
          upper
              ? Math.min(best, limit[i] - centre - reach)
              : Math.max(best, limit[i] - centre + reach);
    }
    return best;
  }
}
