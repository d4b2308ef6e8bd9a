package org.padtrue.numeric;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.jspecify.annotations.Nullable;

/**
 * Tails of the normal distribution in one and two dimensions, accurate far out. Arguments in
 * standard deviations and probabilities are pure numbers.
 *
 * <p>Arguments in standard deviations and probabilities are pure numbers.
 */
public final class NormalTail {
  private static final double ROOT_2PI = Math.sqrt(2 * Math.PI);

  /** Beyond this correlation the arc sine form needs too many nodes. */
  private static final double STEEP = 0.925;

  /** Where a normal density has nothing left at double precision of the tails looked at. */
  private static final double FAR = 9;

  /** Gauss-Legendre rules, few nodes for weak correlations (as Genz 2004, Stat. Comput. 14). */
  private static final Rule FEW = new Rule(6);

  private static final Rule SOME = new Rule(12);
  private static final Rule MANY = new Rule(20);

  private static final class Rule {
    final double[] nodes;
    final double[] weights;

    Rule(int n) {
      GaussIntegrator g = new GaussIntegratorFactory().legendre(n);
      nodes = new double[n];
      weights = new double[n];
      for (int i = 0; i < n; i++) {
        nodes[i] = g.getPoint(i);
        weights[i] = g.getWeight(i);
      }
    }
  }

  private NormalTail() {}

  /**
   * The score that a standard normal exceeds with a probability.
   *
   * @param p more than 0 and less than 1
   */
  public static double scoreAbove(double p) {
    return Math.sqrt(2) * org.apache.commons.math3.special.Erf.erfcInv(2 * p);
  }

  /**
   * P(Z &gt; z). The rational approximation 5666 of Hart, Computer Approximations, 1968, as printed
   * in West, Better approximations to cumulative normal functions, 2005: this is called hundreds of
   * times for every placement, and the library's function iterates an incomplete gamma function. A
   * test holds it against the library's.
   */
  public static double above(double z) {
    double x = Math.abs(z);
    if (x > 38) {
      return z > 0 ? 0 : 1;
    }
    double e = Math.exp(-x * x / 2);
    double tail = x < 7.07106781186547 ? e * rational(x) : e / fraction(x) / ROOT_2PI;
    return z > 0 ? tail : 1 - tail;
  }

  private static double rational(double x) {
    double n = 3.52624965998911e-2 * x + 0.700383064443688;
    n = n * x + 6.37396220353165;
    n = n * x + 33.912866078383;
    n = n * x + 112.079291497871;
    n = n * x + 221.213596169931;
    n = n * x + 220.206867912376;
    double d = 8.83883476483184e-2 * x + 1.75566716318264;
    d = d * x + 16.064177579207;
    d = d * x + 86.7807322029461;
    d = d * x + 296.564248779674;
    d = d * x + 637.333633378831;
    d = d * x + 793.826512519948;
    d = d * x + 440.413735824752;
    return n / d;
  }

  /** Continued fraction of Mills' ratio, far out. */
  private static double fraction(double x) {
    double f = x + 0.65;
    for (int i = 4; i > 0; i--) {
      f = x + i / f;
    }
    return f;
  }

  /** P(Z &lt; a or Z &gt; b); 1 when a &gt; b. */
  public static double outside(double a, double b) {
    return a > b ? 1 : above(-a) + above(b);
  }

  /**
   * P(Z1 &gt; h and Z2 &gt; k) for correlation r. Up to |r| = 0.925 the integral over the arc sine
   * of the correlation (Drezner and Wesolowsky 1990, J. Statist. Comput. Simul. 35), beyond it the
   * conditional probability integrated over Z1 in pieces.
   */
  public static double bothAbove(double h, double k, double r) {
    return new Pair(r).bothAbove(h, k, above(h), above(k));
  }

  /**
   * Two normals of one correlation. What hangs on the correlation alone is worked out once: an
   * integral asks for thousands of rectangles of one pair.
   */
  static final class Pair {
    private final double r;
    private final double[] sines;
    private final double[] weights;
    private final double half;

    Pair(double r) {
      this.r = r;
      double size = Math.abs(r);
      Rule rule = size < 0.3 ? FEW : size < 0.75 ? SOME : MANY;
      weights = rule.weights;
      half = Math.asin(r) / 2;
      sines = new double[r != 0 && size <= STEEP ? weights.length : 0];
      for (int i = 0; i < sines.length; i++) {
        sines[i] = Math.sin(half * (1 + rule.nodes[i]));
      }
    }

    /** The probability, given those of each being above alone. */
    double bothAbove(double h, double k, double aboveH, double aboveK) {
      if (r == 0 || h > 38 || k > 38) {
        return aboveH * aboveK;
      }
      if (h < -38 || k < -38) {
        return above(Math.max(h, k));
      }
      return sines.length > 0 ? byArc(h, k, aboveH * aboveK) : byCondition(h, k, r);
    }

    private double byArc(double h, double k, double apart) {
      double sum = 0;
      for (int i = 0; i < sines.length; i++) {
        double s = sines[i];
        sum += weights[i] * Math.exp((h * k * s - (h * h + k * k) / 2) / (1 - s * s));
      }
      return Math.max(0, apart + half * sum / (2 * Math.PI));
    }
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
    for (int i = 0; i < MANY.nodes.length; i++) {
      double z = from + half * (1 + MANY.nodes[i]);
      sum += MANY.weights[i] * Math.exp(-z * z / 2) * above((k - r * z) / s);
    }
    return half * sum / ROOT_2PI;
  }

  /** Rectangles under two normals of one correlation. */
  public static final class Rectangles {
    private final double r;
    private @Nullable Pair alike;
    private @Nullable Pair opposed;

    public Rectangles(double r) {
      this.r = r;
    }

    /** P((Z1, Z2) not in [a1, b1] x [a2, b2]); 1 when an interval is crossed. */
    public double outside(double a1, double b1, double a2, double b2) {
      if (a1 > b1 || a2 > b2) {
        return 1;
      }
      double below1 = above(-a1);
      double above1 = above(b1);
      double below2 = above(-a2);
      double above2 = above(b2);
      double one = below1 + above1;
      double two = below2 + above2;
      double less = Math.min(one, two);
      // Both at once is never more than the lesser: below this it changes the sum by under 0.1 %.
      if (r == 0 || less < 1e-3 * Math.max(one, two)) {
        return one + two - one * two;
      }
      if (alike == null || opposed == null) {
        alike = new Pair(r);
        opposed = new Pair(-r);
      }
      double both =
          alike.bothAbove(b1, b2, above1, above2)
              + opposed.bothAbove(b1, -a2, above1, below2)
              + opposed.bothAbove(-a1, b2, below1, above2)
              + alike.bothAbove(-a1, -a2, below1, below2);
      return Math.min(1, one + two - Math.min(both, less));
    }
  }
}
