package org.padtrue.imaging.map;

/**
 * A camera's lens: pinhole with radial (rational) and tangential distortion, coefficients as in the
 * OpenCV calibration model.
 *
 * <p>Distortion coefficients are pure numbers.
 *
 * @param width px of the pictures that were calibrated
 * @param height px
 * @param fxPx focal length along x, px
 * @param fyPx focal length along y, px
 * @param cxPx principal point, px
 * @param cyPx principal point, px
 * @param k1 radial, numerator, r^2
 * @param k2 radial, numerator, r^4
 * @param p1 tangential
 * @param p2 tangential
 * @param k3 radial, numerator, r^6
 * @param k4 radial, denominator, r^2; 0 unless the rational model was needed
 * @param k5 radial, denominator, r^4
 * @param k6 radial, denominator, r^6
 */
public record CameraModel(
    int width,
    int height,
    double fxPx,
    double fyPx,
    double cxPx,
    double cyPx,
    double k1,
    double k2,
    double p1,
    double p2,
    double k3,
    double k4,
    double k5,
    double k6) {

  /** The same lens where pixel x of before is pixel factor x + dx, likewise y. */
  CameraModel enlarged(int factor, double dx, double dy) {
    return new CameraModel(
        factor * width,
        factor * height,
        factor * fxPx,
        factor * fyPx,
        factor * cxPx + dx,
        factor * cyPx + dy,
        k1,
        k2,
        p1,
        p2,
        k3,
        k4,
        k5,
        k6);
  }

  /** Where an ideal (undistorted) pixel is seen: {x, y}, px. */
  public double[] distort(double xPx, double yPx) {
    double x = (xPx - cxPx) / fxPx;
    double y = (yPx - cyPx) / fyPx;
    double[] d = distorted(x, y);
    return new double[] {fxPx * d[0] + cxPx, fyPx * d[1] + cyPx};
  }

  private double[] distorted(double x, double y) {
    double r2 = x * x + y * y;
    double radial = (1 + r2 * (k1 + r2 * (k2 + r2 * k3))) / (1 + r2 * (k4 + r2 * (k5 + r2 * k6)));
    return new double[] {
      x * radial + 2 * p1 * x * y + p2 * (r2 + 2 * x * x),
      y * radial + p1 * (r2 + 2 * y * y) + 2 * p2 * x * y
    };
  }

  /**
   * The ideal pixel of a seen one: {x, y}, px. Fixed-point iteration, to 1e-9 of the focal length.
   */
  public double[] undistort(double xPx, double yPx) {
    double xs = (xPx - cxPx) / fxPx;
    double ys = (yPx - cyPx) / fyPx;
    double x = xs;
    double y = ys;
    for (int i = 0; i < 100; i++) {
      double[] d = distorted(x, y);
      double ex = xs - d[0];
      double ey = ys - d[1];
      x += ex;
      y += ey;
      if (Math.abs(ex) + Math.abs(ey) < 1e-10) {
        break;
      }
    }
    return new double[] {fxPx * x + cxPx, fyPx * y + cyPx};
  }
}
