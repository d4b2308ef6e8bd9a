package org.padtrue.log;

/**
 * What the linear columns of one panel say as measured = T(nominal): shift at the panel origin,
 * direction and length of the image of +x, length of the image of +y, squareness.
 */
final class PanelTerms {
  private final PlainColumns c;
  private final int panel;
  private final double[] b;
  // dx = a00 x + a01 y, dy = a10 x + a11 y, about the centre
  private final double a00;
  private final double a01;
  private final double a10;
  private final double a11;

  PanelTerms(PlainColumns c, int panel, double[] b) {
    this.c = c;
    this.panel = panel;
    this.b = b;
    boolean turns = c.family != PlainColumns.Family.SHIFT;
    boolean stretches = c.family == PlainColumns.Family.AFFINE;
    double phi = turns ? b[c.rotation(panel)] / c.half : 0;
    a00 = stretches ? b[c.linear()] / c.half : 0;
    a11 = stretches ? b[c.linear() + 1] / c.half : 0;
    a01 = -phi + (stretches ? b[c.linear() + 2] / c.half : 0);
    a10 = phi;
  }

  double shift(int axis) {
    double t = b[c.shift(panel, axis)];
    return axis == 0
        ? t - a00 * c.centreX - a01 * c.centreY
        : t - a10 * c.centreX - a11 * c.centreY;
  }

  /** Coefficients of the shift at the origin on the columns. */
  double[] shiftBy(int axis) {
    double[] by = new double[c.count];
    by[c.shift(panel, axis)] = 1;
    double x = c.centreX / c.half;
    double y = c.centreY / c.half;
    if (c.family != PlainColumns.Family.SHIFT) {
      by[c.rotation(panel)] = axis == 0 ? y : -x;
    }
    if (c.family == PlainColumns.Family.AFFINE) {
      by[c.linear() + axis] = axis == 0 ? -x : -y;
      if (axis == 0) {
        by[c.linear() + 2] = -y;
      }
    }
    return by;
  }

  double rotationDeg() {
    return Math.toDegrees(Math.atan2(a10, 1 + a00));
  }

  double[] rotationBy() {
    double[] by = new double[c.count];
    by[c.rotation(panel)] = Math.toDegrees(1 / c.half);
    return by;
  }

  double scaleXPpm() {
    return 1e6 * (Math.hypot(1 + a00, a10) - 1);
  }

  double scaleYPpm() {
    return 1e6 * (Math.hypot(a01, 1 + a11) - 1);
  }

  double squarenessMrad() {
    double toY = Math.atan2(1 + a11, a01) - Math.PI / 2;
    return 1e3 * (toY - Math.atan2(a10, 1 + a00));
  }
}
