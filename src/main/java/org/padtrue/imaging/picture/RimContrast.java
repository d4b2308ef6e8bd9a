package org.padtrue.imaging.picture;

/** How plainly a round spot ends at its rim, whatever its colours: cheap enough to ask anywhere. */
public final class RimContrast {
  private static final int RING = 24;

  private RimContrast() {}

  /**
   * Colour difference between a ring inside and one outside the rim, against the scatter on each: 0
   * to 1.
   *
   * @param x middle, px
   * @param y middle, px
   * @param radius px
   */
  public static double of(Picture picture, double x, double y, double radius) {
    double[] a = new double[4];
    double[] b = new double[4];
    for (int i = 0; i < RING; i++) {
      double t = 2 * Math.PI * i / RING;
      double c = Math.cos(t);
      double s = Math.sin(t);
      double in = (i % 2 == 0 ? 0.55 : 0.8) * radius;
      double out = (i % 2 == 0 ? 1.2 : 1.45) * radius;
      for (int k = 0; k < 3; k++) {
        double v = picture.nearest(x + in * c, y + in * s, k);
        double w = picture.nearest(x + out * c, y + out * s, k);
        a[k] += v / RING;
        b[k] += w / RING;
        a[3] += v * v / RING;
        b[3] += w * w / RING;
      }
    }
    double between = 0;
    double within = a[3] + b[3] + 60;
    for (int k = 0; k < 3; k++) {
      between += (a[k] - b[k]) * (a[k] - b[k]);
      within -= a[k] * a[k] + b[k] * b[k];
    }
    return between / (between + within);
  }
}
