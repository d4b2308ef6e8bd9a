package org.padtrue.imaging.pose;

import org.apache.commons.math3.special.Erf;

/**
 * How much of a blurred point a rectangle covers, 0 to 1, corners included: the blur being normal
 * and the same in all directions, the cover is a product of one factor along x and one along y.
 */
final class BlurredRect {
  private static final int TABLE = 4096;
  private static final double RANGE = 6;
  private static final float[] CUMULATIVE = new float[2 * TABLE + 1];
  private static final float[] DENSITY = new float[2 * TABLE + 1];

  static {
    for (int i = 0; i <= 2 * TABLE; i++) {
      double z = (i - TABLE) * RANGE / TABLE;
      CUMULATIVE[i] = (float) (0.5 * Erf.erfc(-z / Math.sqrt(2)));
      DENSITY[i] = (float) (Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI));
    }
  }

  /** Of the point last looked at. */
  double cover;

  /** Derivatives by the sides' places x0, x1, y0, y1, per mm. */
  final double[] bySide = new double[4];

  /** Derivative by the logarithm of the blur. */
  double byBlur;

  /** So many blurs from a side its derivative counts no more: a hundredth of the greatest. */
  private static final double STEEP = 3;

  /**
   * Looks at a point; all in one length unit.
   *
   * @return false far from every side, where the derivatives are not worth having and not set
   */
  boolean look(double u, double v, double x0, double x1, double y0, double y1, double sigma) {
    double s = 1 / sigma;
    double a0 = (u - x0) * s;
    double a1 = (u - x1) * s;
    double b0 = (v - y0) * s;
    double b1 = (v - y1) * s;
    int i0 = index(a0);
    int i1 = index(a1);
    int j0 = index(b0);
    int j1 = index(b1);
    double x = CUMULATIVE[i0] - CUMULATIVE[i1];
    double y = CUMULATIVE[j0] - CUMULATIVE[j1];
    cover = x * y;
    if (Math.min(Math.min(Math.abs(a0), Math.abs(a1)), Math.min(Math.abs(b0), Math.abs(b1)))
        > STEEP) {
      return false;
    }
    bySide[0] = -DENSITY[i0] * s * y;
    bySide[1] = DENSITY[i1] * s * y;
    bySide[2] = -DENSITY[j0] * s * x;
    bySide[3] = DENSITY[j1] * s * x;
    byBlur = y * (a1 * DENSITY[i1] - a0 * DENSITY[i0]) + x * (b1 * DENSITY[j1] - b0 * DENSITY[j0]);
    return true;
  }

  private static int index(double z) {
    // Half for rounding; what lies below the table is cut to its first entry.
    int i = (int) (z * (TABLE / RANGE) + (TABLE + 0.5));
    return i < 0 ? 0 : Math.min(i, 2 * TABLE);
  }
}
