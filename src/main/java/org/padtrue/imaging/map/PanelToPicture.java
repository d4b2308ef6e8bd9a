package org.padtrue.imaging.map;

import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.picture.Matrices;

/**
 * Map from the panel (mm, x right, y up, z above the board) to the picture (px, y down): a
 * homography of the board's plane, then the lens, with parts that stand up seen from a camera.
 *
 * <p>A point at height z over a board seen from distance D straight above the foot point appears at
 * foot + (point - foot) D / (D - z).
 */
public final class PanelToPicture {
  private final double[] h;
  private final double[] inverse;
  private final boolean affine;
  private final @Nullable CameraModel lens;
  private final double footX;
  private final double footY;
  private final double distanceMm;

  /**
   * @param h homography, 9 numbers row by row, panel mm to ideal px
   * @param lens distortion, or null
   */
  public PanelToPicture(double[] h, @Nullable CameraModel lens) {
    this(h, lens, 0, 0, Double.POSITIVE_INFINITY);
  }

  private PanelToPicture(
      double[] h, @Nullable CameraModel lens, double footX, double footY, double distanceMm) {
    this.h = h.clone();
    this.inverse = Matrices.inverse3(h);
    this.affine = h[6] == 0 && h[7] == 0 && h[8] == 1;
    this.lens = lens;
    this.footX = footX;
    this.footY = footY;
    this.distanceMm = distanceMm;
  }

  /** The same lens and camera with another homography. */
  public PanelToPicture withHomography(double[] other) {
    return new PanelToPicture(other, lens, footX, footY, distanceMm);
  }

  /** The same map seen from a camera at a distance above a foot point of the panel. */
  public PanelToPicture from(double footXMm, double footYMm, double cameraDistanceMm) {
    return new PanelToPicture(h, lens, footXMm, footYMm, cameraDistanceMm);
  }

  /**
   * The same map onto a window of the picture, enlarged.
   *
   * @param x0 column of the picture where the window begins
   * @param y0 row
   */
  public PanelToPicture enlarged(int factor, int x0, int y0) {
    // The middle of the first pixel is (0, 0) in both.
    double dx = (factor - 1) / 2.0 - factor * (double) x0;
    double dy = (factor - 1) / 2.0 - factor * (double) y0;
    double[] larger = {factor, 0, dx, 0, factor, dy, 0, 0, 1};
    return new PanelToPicture(
        Matrices.product3(larger, h),
        lens == null ? null : lens.enlarged(factor, dx, dy),
        footX,
        footY,
        distanceMm);
  }

  public double[] homography() {
    return h.clone();
  }

  /** Picture position of a panel point on the board: {x, y}, px. */
  public double[] at(double xMm, double yMm) {
    return at(xMm, yMm, 0);
  }

  /** Picture position of a point at height zMm above the board: {x, y}, px. */
  public double[] at(double xMm, double yMm, double zMm) {
    double x = xMm;
    double y = yMm;
    if (zMm != 0 && Double.isFinite(distanceMm)) {
      double f = distanceMm / (distanceMm - zMm);
      x = footX + (x - footX) * f;
      y = footY + (y - footY) * f;
    }
    double[] p = apply(h, x, y);
    return lens == null ? p : lens.distort(p[0], p[1]);
  }

  /** Panel position, on the board, of a picture point: {x, y}, mm. */
  public double[] toPanel(double xPx, double yPx) {
    double[] p = lens == null ? new double[] {xPx, yPx} : lens.undistort(xPx, yPx);
    return apply(inverse, p[0], p[1]);
  }

  /** Derivatives {dX/dx, dX/dy, dY/dx, dY/dy} at a panel point, px per mm. */
  public double[] jacobian(double xMm, double yMm, double zMm) {
    double e = 0.01;
    double[] xp = at(xMm + e, yMm, zMm);
    double[] xm = at(xMm - e, yMm, zMm);
    double[] yp = at(xMm, yMm + e, zMm);
    double[] ym = at(xMm, yMm - e, zMm);
    return new double[] {
      (xp[0] - xm[0]) / (2 * e),
      (yp[0] - ym[0]) / (2 * e),
      (xp[1] - xm[1]) / (2 * e),
      (yp[1] - ym[1]) / (2 * e)
    };
  }

  /** Mean scale at a panel point, px per mm. */
  public double scaleAt(double xMm, double yMm) {
    double[] j = jacobian(xMm, yMm, 0);
    return Math.sqrt(Math.abs(j[0] * j[3] - j[1] * j[2]));
  }

  /** True when the panel appears as seen through from behind. */
  public boolean mirrored(double xMm, double yMm) {
    double[] j = jacobian(xMm, yMm, 0);
    // The picture's y points down: an unmirrored view has a negative determinant.
    return j[0] * j[3] - j[1] * j[2] > 0;
  }

  /** Writes the picture position of a panel point on the board: {x, y}, px. */
  public void at(double xMm, double yMm, double[] out) {
    out[0] = h[0] * xMm + h[1] * yMm + h[2];
    out[1] = h[3] * xMm + h[4] * yMm + h[5];
    if (!affine) {
      double w = h[6] * xMm + h[7] * yMm + h[8];
      out[0] /= w;
      out[1] /= w;
    }
    if (lens != null) {
      double[] p = lens.distort(out[0], out[1]);
      out[0] = p[0];
      out[1] = p[1];
    }
  }

  private static double[] apply(double[] m, double x, double y) {
    double w = m[6] * x + m[7] * y + m[8];
    return new double[] {(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w};
  }
}
