package org.padtrue.report.plot.ink;

import java.awt.geom.Path2D;

/** Outlines of marks, appended to a path; pixels. */
public final class MarkPaths {
  /** Control distance of a quarter circle drawn as one cubic curve. */
  private static final double KAPPA = 0.5523;

  private MarkPaths() {}

  public static void append(Path2D.Float p, Ink.Mark mark, double x, double y, double r) {
    switch (mark) {
      case DOT, RING -> oval(p, x, y, r, r);
      case SQUARE -> polygon(p, x - r, y - r, x + r, y - r, x + r, y + r, x - r, y + r);
      case DIAMOND -> polygon(p, x, y - r, x + r, y, x, y + r, x - r, y);
      case TRIANGLE -> polygon(p, x, y - r, x + r, y + 0.8 * r, x - r, y + 0.8 * r);
      case ARROW ->
          polygon(
              p,
              x - 2 * r,
              y - 0.7,
              x + 0.4 * r,
              y - 0.7,
              x + 0.4 * r,
              y - 0.7 * r,
              x + 2 * r,
              y,
              x + 0.4 * r,
              y + 0.7 * r,
              x + 0.4 * r,
              y + 0.7,
              x - 2 * r,
              y + 0.7);
      case LINE -> {
        p.moveTo(x - 2 * r, y);
        p.lineTo(x + 2 * r, y);
      }
      case CROSS -> {
        open(p, x - r, y - r, x + r, y + r);
        open(p, x - r, y + r, x + r, y - r);
      }
    }
  }

  static void oval(Path2D.Float p, double x, double y, double rx, double ry) {
    double kx = KAPPA * rx;
    double ky = KAPPA * ry;
    p.moveTo(t(x + rx), t(y));
    p.curveTo(t(x + rx), t(y + ky), t(x + kx), t(y + ry), t(x), t(y + ry));
    p.curveTo(t(x - kx), t(y + ry), t(x - rx), t(y + ky), t(x - rx), t(y));
    p.curveTo(t(x - rx), t(y - ky), t(x - kx), t(y - ry), t(x), t(y - ry));
    p.curveTo(t(x + kx), t(y - ry), t(x + rx), t(y - ky), t(x + rx), t(y));
    p.closePath();
  }

  public static void polygon(Path2D.Float p, double... xy) {
    open(p, xy);
    p.closePath();
  }

  static void open(Path2D.Float p, double... xy) {
    p.moveTo(t(xy[0]), t(xy[1]));
    for (int i = 2; i < xy.length; i += 2) {
      p.lineTo(t(xy[i]), t(xy[i + 1]));
    }
  }

  private static float t(double v) {
    return Ink.tenth(v);
  }
}
