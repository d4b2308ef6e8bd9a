package org.padtrue.imaging.map;

import java.util.Arrays;

/**
 * How a scanner or camera bends space: reading = true + polynomial(true), both in mm in the
 * device's own frame (x right, y up, origin in the middle of the picture).
 *
 * @param cx coefficients of the error in x, order of {@link #terms}: mm at the scale length
 * @param cy coefficients of the error in y: mm at the scale length
 * @param scaleMm length at which a coefficient is the error in mm
 * @param pxPerMm scale of the pictures it was found with
 * @param originXMm centre of the polynomial in the device's frame: where the panel was turned about
 * @param originYMm likewise
 */
public record DeviceBend(
    double[] cx, double[] cy, double scaleMm, double pxPerMm, double originXMm, double originYMm) {
  /** Linear 2, quadratic 3, cubic 4. */
  public static final int TERMS = 9;

  public static final String[] NAMES = {"x", "y", "xx", "xy", "yy", "xxx", "xxy", "xyy", "yyy"};

  public DeviceBend {
    cx = cx.clone();
    cy = cy.clone();
    if (cx.length != TERMS || cy.length != TERMS) {
      throw new IllegalArgumentException("a device bend has " + TERMS + " terms per axis");
    }
  }

  /** Values of the terms x, y, xx, xy, yy, xxx, xxy, xyy, yyy. */
  public static double[] terms(double x, double y) {
    return new double[] {x, y, x * x, x * y, y * y, x * x * x, x * x * y, x * y * y, y * y * y};
  }

  /** Error of the reading at a true position: {x, y}, mm. */
  public double[] error(double xMm, double yMm) {
    double[] t = terms((xMm - originXMm) / scaleMm, (yMm - originYMm) / scaleMm);
    double ex = 0;
    double ey = 0;
    for (int i = 0; i < TERMS; i++) {
      ex += cx[i] * t[i];
      ey += cy[i] * t[i];
    }
    return new double[] {ex, ey};
  }

  /** True position of a reading: {x, y}, mm. */
  public double[] corrected(double xMm, double yMm) {
    double x = xMm;
    double y = yMm;
    for (int i = 0; i < 4; i++) {
      double[] e = error(x, y);
      x = xMm - e[0];
      y = yMm - e[1];
    }
    return new double[] {x, y};
  }

  /** Largest error over a square of half side r, mm. */
  public double largestMm(double r) {
    double m = 0;
    for (int i = -4; i <= 4; i++) {
      for (int j = -4; j <= 4; j++) {
        double[] e = error(originXMm + r * i / 4, originYMm + r * j / 4);
        m = Math.max(m, Math.hypot(e[0], e[1]));
      }
    }
    return m;
  }

  @Override
  public boolean equals(Object o) {
    return o instanceof DeviceBend d
        && Arrays.equals(cx, d.cx)
        && Arrays.equals(cy, d.cy)
        && scaleMm == d.scaleMm
        && pxPerMm == d.pxPerMm
        && originXMm == d.originXMm
        && originYMm == d.originYMm;
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(cx) + Arrays.hashCode(cy);
  }

  @Override
  public String toString() {
    return "DeviceBend[x=" + Arrays.toString(cx) + ", y=" + Arrays.toString(cy) + "]";
  }
}
