package org.padtrue.fit;

/**
 * A transform of the plane, T(x, y) = (tx + a11 x + a12 y, ty + a21 x + a22 y), mm.
 *
 * @param txMm image of the origin
 * @param tyMm image of the origin
 * @param a11 linear part, a pure number
 * @param a12 linear part, a pure number
 * @param a21 linear part, a pure number
 * @param a22 linear part, a pure number
 */
public record PlanarTransform(
    double txMm, double tyMm, double a11, double a12, double a21, double a22) {

  /** Leaves every point where it is. */
  public static final PlanarTransform IDENTITY = new PlanarTransform(0, 0, 1, 0, 0, 1);

  /** Image of a point, x, mm. */
  public double x(double x, double y) {
    return txMm + a11 * x + a12 * y;
  }

  /** Image of a point, y, mm. */
  public double y(double x, double y) {
    return tyMm + a21 * x + a22 * y;
  }

  /** Direction of the image of +x, degrees, in (-180, 180]. */
  public double rotationDeg() {
    return Math.toDegrees(Math.atan2(a21, a11));
  }

  /** Length of the image of a unit step along +x, a ratio. */
  public double scaleX() {
    return Math.hypot(a11, a21);
  }
}
