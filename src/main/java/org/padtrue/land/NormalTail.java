package org.padtrue.land;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.special.Erf;

/** Tails of the normal distribution in one and two dimensions, accurate far out. */
final class NormalTail {
  private static final double ROOT2 = Math.sqrt(2);

  /** Beyond this correlation the arc sine form needs too many nodes. */
  private static final double STEEP = 0.925;

  /** Where a normal density has nothing left at double precision of the tails looked at. */
  private static final double FAR = 9;

  private static final double[] NODES = new double[20];
  private static final double[] WEIGHTS = new double[20];

  static {
    GaussIntegrator g = new GaussIntegratorFactory().legendre(NODES.length);
    for (int i = 0; i < NODES.length; i++) {
      NODES[i] = g.getPoint(i);
      WEIGHTS[i] = g.getWeight(i);
    }
  }

  private NormalTail() {}

  /** P(Z &gt; z). */
  static double above(double z) {
    return 0.5 * Erf.erfc(z / ROOT2);
  }

  /** P(Z &lt; a or Z &gt; b); 1 when a &gt; b. */
  static double outside(double a, double b) {
    return a > b ? 1 : above(-a) + above(b);
  }

  /**
   * P(Z1 &gt; h and Z2 &gt; k) for correlation r. Up to |r| = 0.925 the integral over the arc sine
   * of the correlation (Drezner and Wesolowsky 1990, J. Statist. Comput. Simul. 35; 20 Gauss
   * nodes), beyond it the conditional probability integrated over Z1 in pieces.
   */
  static double bothAbove(double h, double k, double r) {
    if (r == 0 || h > 38 || k > 38) {
      return above(h) * above(k);
    }
    if (h < -38 || k < -38) {
      return above(Math.max(h, k));
    }
    return Math.abs(r) <= STEEP ? byArc(h, k, r) : byCondition(h, k, r);
  }

  private static double byArc(double h, double k, double r) {
    double half = Math.asin(r) / 2;
    double sum = 0;
    for (int i = 0; i < NODES.length; i++) {
      double s = Math.sin(half * (1 + NODES[i]));
      sum += WEIGHTS[i] * Math.exp((h * k * s - (h * h + k * k) / 2) / (1 - s * s));
    }
    return Math.max(0, above(h) * above(k) + half * sum / (2 * Math.PI));
  }

  private static double byCondition(double h, double k, double r) {
    double s = Math.sqrt(Math.max(0, 1 - r * r));
    if (s == 0) {
      return r > 0 ? above(Math.max(h, k)) : Math.max(0, above(h) - above(-k));
    }
    // The conditional probability rises from 0 to 1 around k/r, within a few s/r.
    double turn = k / r;
    double width = 6 * s / Math.abs(r);
    double from = Math.max(h, -FAR);
    double to = Math.max(from, FAR);
    double a = Math.min(Math.max(turn - width, from), to);
    double b = Math.min(Math.max(turn + width, from), to);
    double mid = (a + b) / 2;
    return piece(from, a, k, r, s)
        + piece(a, mid, k, r, s)
        + piece(mid, b, k, r, s)
        + piece(b, to, k, r, s);
  }

  private static double piece(double from, double to, double k, double r, double s) {
    double half = (to - from) / 2;
    if (half <= 0) {
      return 0;
    }
    double sum = 0;
    for (int i = 0; i < NODES.length; i++) {
      double z = from + half * (1 + NODES[i]);
      sum += WEIGHTS[i] * Math.exp(-z * z / 2) * above((k - r * z) / s);
    }
    return half * sum / Math.sqrt(2 * Math.PI);
  }

  /** P((Z1, Z2) not in [a1, b1] x [a2, b2]) for correlation r; 1 when an interval is crossed. */
  static double outsideRectangle(double a1, double b1, double a2, double b2, double r) {
    if (a1 > b1 || a2 > b2) {
      return 1;
    }
    double one = outside(a1, b1);
    double two = outside(a2, b2);
    double less = Math.min(one, two);
    // Both at once is never more than the lesser; below this it does not show in the sum.
    if (r == 0 || less < 1e-5 * Math.max(one, two)) {
      return one + two - one * two;
    }
    double both =
        bothAbove(b1, b2, r)
            + bothAbove(b1, -a2, -r)
            + bothAbove(-a1, b2, -r)
            + bothAbove(-a1, -a2, r);
    return Math.min(1, one + two - Math.min(both, less));
  }
}
