package org.padtrue.fit;

import org.padtrue.numeric.UndeterminedException;

/**
 * Exact least-squares fit of a planar transform to point pairs.
 *
 * <p>Error model: nominal exact, errors of the measured points independent and alike in x and y.
 * Rigid and similarity are exact, not small-angle, solutions (Helmert closed form; proper rotations
 * only, as in Umeyama 1991, IEEE PAMI 13(4)). Degenerate cases throw: fewer than two distinct
 * points for rigid and similarity, points in line for affine, a similarity whose best proper scale
 * is zero.
 *
 * @param transform nominal to measured
 * @param rss residual sum of squares over x and y, mm^2
 * @param degreesOfFreedom 2 n minus the number of parameters
 */
public record PlanarFit(PlanarTransform transform, double rss, int degreesOfFreedom) {

  /** Family of transforms. */
  public enum Family {
    /** Shift only. */
    SHIFT(2, 1),
    /** Shift and rotation. */
    RIGID(3, 2),
    /** Shift, rotation, one scale. */
    SIMILARITY(4, 2),
    /** Shift and any linear part. */
    AFFINE(6, 3);

    private final int parameters;
    private final int points;

    Family(int parameters, int points) {
      this.parameters = parameters;
      this.points = points;
    }

    /** Number of parameters. */
    public int parameters() {
      return parameters;
    }

    /** Number of points that determine it. */
    public int points() {
      return points;
    }
  }

  /** Points whose spread across their line is below this share of that along it lie in line. */
  private static final double IN_LINE_TOL = 1e-9;

  /**
   * Fits.
   *
   * @param family family
   * @param x nominal x, mm
   * @param y nominal y, mm
   * @param u measured x, mm
   * @param v measured y, mm
   * @throws UndeterminedException in degenerate cases
   */
  public static PlanarFit fit(Family family, double[] x, double[] y, double[] u, double[] v) {
    int n = x.length;
    if (n < family.points()) {
      throw new UndeterminedException(
          "points = "
              + n
              + "; the "
              + family.name().toLowerCase(java.util.Locale.ROOT)
              + " fit needs "
              + family.points());
    }
    Moments m = Moments.of(x, y, u, v);
    double[] a = linear(family, m);
    PlanarTransform t =
        new PlanarTransform(
            m.mu - a[0] * m.mx - a[1] * m.my,
            m.mv - a[2] * m.mx - a[3] * m.my,
            a[0],
            a[1],
            a[2],
            a[3]);
    double rss = 0;
    for (int i = 0; i < n; i++) {
      double px = x[i] - m.mx;
      double py = y[i] - m.my;
      double ex = u[i] - m.mu - a[0] * px - a[1] * py;
      double ey = v[i] - m.mv - a[2] * px - a[3] * py;
      rss += ex * ex + ey * ey;
    }
    return new PlanarFit(t, rss, 2 * n - family.parameters());
  }

  private static double[] linear(Family family, Moments m) {
    if (family == Family.SHIFT) {
      return new double[] {1, 0, 0, 1};
    }
    double spread = m.xx + m.yy;
    if (!(spread > 0)) {
      throw new UndeterminedException("the points coincide; a rotation needs two distinct points");
    }
    if (family == Family.AFFINE) {
      double det = m.xx * m.yy - m.xy * m.xy;
      if (!(det > IN_LINE_TOL * IN_LINE_TOL * spread * spread)) {
        throw new UndeterminedException("the points lie in line; an affine fit needs an area");
      }
      return new double[] {
        (m.xu * m.yy - m.yu * m.xy) / det,
        (m.yu * m.xx - m.xu * m.xy) / det,
        (m.xv * m.yy - m.yv * m.xy) / det,
        (m.yv * m.xx - m.xv * m.xy) / det
      };
    }
    double a = m.xu + m.yv;
    double b = m.xv - m.yu;
    double h = Math.hypot(a, b);
    if (!(h > 1e-12 * Math.sqrt(spread * (m.uu + m.vv)))) {
      throw new UndeterminedException(
          "no proper rotation fits better than another; the measured points look mirrored");
    }
    double k = family == Family.SIMILARITY ? h / spread : 1;
    return new double[] {k * a / h, -k * b / h, k * b / h, k * a / h};
  }

  /** Centred second moments. */
  private static final class Moments {
    double mx;
    double my;
    double mu;
    double mv;
    double xx;
    double xy;
    double yy;
    double xu;
    double xv;
    double yu;
    double yv;
    double uu;
    double vv;

    static Moments of(double[] x, double[] y, double[] u, double[] v) {
      Moments m = new Moments();
      int n = x.length;
      for (int i = 0; i < n; i++) {
        m.mx += x[i] / n;
        m.my += y[i] / n;
        m.mu += u[i] / n;
        m.mv += v[i] / n;
      }
      for (int i = 0; i < n; i++) {
        double px = x[i] - m.mx;
        double py = y[i] - m.my;
        double pu = u[i] - m.mu;
        double pv = v[i] - m.mv;
        m.xx += px * px;
        m.xy += px * py;
        m.yy += py * py;
        m.xu += px * pu;
        m.xv += px * pv;
        m.yu += py * pu;
        m.yv += py * pv;
        m.uu += pu * pu;
        m.vv += pv * pv;
      }
      return m;
    }
  }
}
