package org.padtrue.imaging.picture;

/** Values of a picture between its pixels: cubic convolution (Keys 1981, a = -1/2). */
public final class PixelSampler {
  private final Plane plane;

  public PixelSampler(Plane plane) {
    this.plane = plane;
  }

  /** True where the sixteen pixels around a point are there. */
  public boolean holds(double x, double y) {
    return x >= plane.x0() + 1
        && y >= plane.y0() + 1
        && x < plane.x0() + plane.width() - 2
        && y < plane.y0() + plane.height() - 2;
  }

  /** Writes blue, green, red at a picture position; {@link #holds} must be true. */
  public void at(double x, double y, double[] out) {
    int xi = (int) Math.floor(x);
    int yi = (int) Math.floor(y);
    double fx = x - xi;
    double fy = y - yi;
    double b = 0;
    double g = 0;
    double r = 0;
    byte[] v = plane.values();
    for (int j = -1; j <= 2; j++) {
      double wy = weight(j - fy);
      int row = 3 * ((yi - plane.y0() + j) * plane.width() + xi - plane.x0());
      for (int i = -1; i <= 2; i++) {
        double w = wy * weight(i - fx);
        int k = row + 3 * i;
        b += w * (v[k] & 0xFF);
        g += w * (v[k + 1] & 0xFF);
        r += w * (v[k + 2] & 0xFF);
      }
    }
    out[0] = b;
    out[1] = g;
    out[2] = r;
  }

  private static double weight(double t) {
    double a = Math.abs(t);
    return a < 1 ? (1.5 * a - 2.5) * a * a + 1 : a < 2 ? ((-0.5 * a + 2.5) * a - 4) * a + 2 : 0;
  }
}
