package org.padtrue.imaging.map;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.picture.Matrices;

/**
 * Least-squares map from panel points to picture points of one family, with the covariance of its
 * parameters, so that the map's uncertainty can be said anywhere.
 *
 * <p>Error model: nominal panel points exact, picture points with equal independent errors. The
 * error's size joins what the residuals show with a prior worth four degrees of freedom, since
 * three fiducials alone say little about it.
 */
public final class MapFit {
  /** A point pair: panel mm, picture px (ideal, undistorted), standard uncertainty px. */
  public record Pair(double xMm, double yMm, double xPx, double yPx, double uPx) {}

  private static final double PRIOR_FREEDOM = 4;

  public final MapFamily family;
  public final boolean mirrored;
  public final double[] h;
  public final double rssPx2;
  public final int redundancy;
  private final double cx;
  private final double cy;
  private final double size;
  private final double[] theta;
  private final double[][] covariance;

  /** How many times larger than these pairs alone tell standard uncertainties are. */
  public final double wider;

  private MapFit(
      MapFamily family,
      boolean mirrored,
      double cx,
      double cy,
      double size,
      double[] theta,
      double[][] covariance,
      double rss,
      int redundancy,
      double wider) {
    this.family = family;
    this.mirrored = mirrored;
    this.cx = cx;
    this.cy = cy;
    this.size = size;
    this.theta = theta;
    this.covariance = covariance;
    this.rssPx2 = rss;
    this.redundancy = redundancy;
    this.wider = wider;
    double[] norm = {1 / size, 0, -cx / size, 0, 1 / size, -cy / size, 0, 0, 1};
    this.h = Matrices.product3(matrix(family, mirrored, theta), norm);
  }

  /**
   * Fits; null when the points cannot carry the family.
   *
   * @param floorPx smallest standard error believed of a point, px
   */
  public static @Nullable MapFit fit(
      List<Pair> pairs, MapFamily family, boolean mirrored, double floorPx) {
    int n = pairs.size();
    int p = family.parameters();
    if (2 * n < p) {
      return null;
    }
    double cx = pairs.stream().mapToDouble(Pair::xMm).average().orElse(0);
    double cy = pairs.stream().mapToDouble(Pair::yMm).average().orElse(0);
    double size = 1e-9;
    for (Pair q : pairs) {
      size = Math.max(size, Math.hypot(q.xMm - cx, q.yMm - cy));
    }
    double[] theta = start(pairs, family, mirrored, cx, cy, size);
    double[][] inverse = null;
    double rss = 0;
    double scalePx = 1;
    for (int it = 0; it < (family == MapFamily.HOMOGRAPHY ? 12 : 2); it++) {
      double[][] a = new double[p][p];
      double[] b = new double[p];
      rss = 0;
      for (Pair q : pairs) {
        double u = (q.xMm - cx) / size;
        double v = (q.yMm - cy) / size;
        double[][] j = derivative(family, mirrored, theta, u, v);
        double[] at = apply(matrix(family, mirrored, theta), u, v);
        double w = 1 / Math.max(floorPx * floorPx, q.uPx * q.uPx);
        Matrices.accumulate(a, b, j[0], q.xPx - at[0], w);
        Matrices.accumulate(a, b, j[1], q.yPx - at[1], w);
      }
      inverse = Matrices.inverse(a);
      if (inverse == null) {
        return null;
      }
      double[] d = Matrices.times(inverse, b);
      for (int i = 0; i < p; i++) {
        theta[i] += d[i];
      }
    }
    double chi = 0;
    for (Pair q : pairs) {
      double[] at =
          apply(matrix(family, mirrored, theta), (q.xMm - cx) / size, (q.yMm - cy) / size);
      double e2 = Math.pow(q.xPx - at[0], 2) + Math.pow(q.yPx - at[1], 2);
      rss += e2;
      chi += e2 / Math.max(floorPx * floorPx, q.uPx * q.uPx);
    }
    int redundancy = 2 * n - p;
    scalePx = (PRIOR_FREEDOM + chi) / (PRIOR_FREEDOM + redundancy);
    double[][] cov = new double[p][p];
    for (int i = 0; i < p; i++) {
      for (int k = 0; k < p; k++) {
        cov[i][k] = java.util.Objects.requireNonNull(inverse)[i][k] * scalePx;
      }
    }
    return new MapFit(family, mirrored, cx, cy, size, theta, cov, rss, redundancy, 1);
  }

  /** The same map, its standard uncertainties so many times larger. */
  public MapFit widened(double times) {
    return new MapFit(
        family, mirrored, cx, cy, size, theta, covariance, rssPx2, redundancy, wider * times);
  }

  /** Variance of the mapped point, mean of the two picture axes, px^2. */
  public double variance(double xMm, double yMm) {
    double[][] j = derivative(family, mirrored, theta, (xMm - cx) / size, (yMm - cy) / size);
    double mean = (Matrices.form(covariance, j[0]) + Matrices.form(covariance, j[1])) / 2;
    return wider * wider * mean;
  }

  /** Residuals of the pairs, px. */
  public double[] residuals(List<Pair> pairs) {
    double[] r = new double[pairs.size()];
    for (int i = 0; i < r.length; i++) {
      Pair q = pairs.get(i);
      double[] at = apply(h, q.xMm, q.yMm);
      r[i] = Math.hypot(q.xPx - at[0], q.yPx - at[1]);
    }
    return r;
  }

  private static double[] start(
      List<Pair> pairs, MapFamily family, boolean mirrored, double cx, double cy, double size) {
    double sy = mirrored ? 1 : -1;
    double mx = pairs.stream().mapToDouble(Pair::xPx).average().orElse(0);
    double my = pairs.stream().mapToDouble(Pair::yPx).average().orElse(0);
    double a = 0;
    double b = 0;
    double n = 0;
    for (Pair q : pairs) {
      double u = (q.xMm - cx) / size;
      double v = (q.yMm - cy) / size;
      double x = q.xPx - mx;
      double y = sy * (q.yPx - my);
      a += u * x + v * y;
      b += u * y - v * x;
      n += u * u + v * v;
    }
    a /= n;
    b /= n;
    return switch (family) {
      case SIMILARITY -> new double[] {a, b, mx, my};
      case AFFINE -> new double[] {a, -b, mx, sy * b, sy * a, my};
      case HOMOGRAPHY -> new double[] {a, -b, mx, sy * b, sy * a, my, 0, 0};
    };
  }

  private static double[] matrix(MapFamily family, boolean mirrored, double[] t) {
    double sy = mirrored ? 1 : -1;
    return switch (family) {
      case SIMILARITY -> new double[] {t[0], -t[1], t[2], sy * t[1], sy * t[0], t[3], 0, 0, 1};
      case AFFINE -> new double[] {t[0], t[1], t[2], t[3], t[4], t[5], 0, 0, 1};
      case HOMOGRAPHY -> new double[] {t[0], t[1], t[2], t[3], t[4], t[5], t[6], t[7], 1};
    };
  }

  private static double[][] derivative(
      MapFamily family, boolean mirrored, double[] t, double u, double v) {
    double sy = mirrored ? 1 : -1;
    switch (family) {
      case SIMILARITY:
        return new double[][] {{u, -v, 1, 0}, {sy * v, sy * u, 0, 1}};
      case AFFINE:
        return new double[][] {{u, v, 1, 0, 0, 0}, {0, 0, 0, u, v, 1}};
      default:
        double w = t[6] * u + t[7] * v + 1;
        double x = (t[0] * u + t[1] * v + t[2]) / w;
        double y = (t[3] * u + t[4] * v + t[5]) / w;
        return new double[][] {
          {u / w, v / w, 1 / w, 0, 0, 0, -x * u / w, -x * v / w},
          {0, 0, 0, u / w, v / w, 1 / w, -y * u / w, -y * v / w}
        };
    }
  }

  private static double[] apply(double[] m, double x, double y) {
    double w = m[6] * x + m[7] * y + m[8];
    return new double[] {(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w};
  }
}
