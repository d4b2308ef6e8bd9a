package org.padtrue.imaging;

/**
 * Exact share of every pixel that a polygon covers, by signed areas summed along rows. Exact areas,
 * not samples: an edge drawn from samples would sit on a raster of its own.
 */
final class Coverage {
  final int x0;
  final int y0;
  final int width;
  final int height;
  private final float[] area;

  /** A window of pixels; pixel (x, y) spans half a pixel to each side of its centre. */
  Coverage(int x0, int y0, int width, int height) {
    this.x0 = x0;
    this.y0 = y0;
    this.width = width;
    this.height = height;
    this.area = new float[(width + 2) * height];
  }

  /** Window that holds a polygon, clipped to the picture; null when it lies outside. */
  static Coverage around(double[][] polygon, int pictureWidth, int pictureHeight) {
    double xl = Double.MAX_VALUE;
    double yl = Double.MAX_VALUE;
    double xh = -Double.MAX_VALUE;
    double yh = -Double.MAX_VALUE;
    for (double[] p : polygon) {
      xl = Math.min(xl, p[0]);
      yl = Math.min(yl, p[1]);
      xh = Math.max(xh, p[0]);
      yh = Math.max(yh, p[1]);
    }
    int a = Math.max(0, (int) Math.floor(xl) - 1);
    int b = Math.max(0, (int) Math.floor(yl) - 1);
    int c = Math.min(pictureWidth - 1, (int) Math.ceil(xh) + 1);
    int d = Math.min(pictureHeight - 1, (int) Math.ceil(yh) + 1);
    return c < a || d < b ? null : new Coverage(a, b, c - a + 1, d - b + 1);
  }

  /** Adds a closed polygon. */
  Coverage add(double[][] polygon) {
    for (int i = 0; i < polygon.length; i++) {
      double[] p = polygon[i];
      double[] q = polygon[(i + 1) % polygon.length];
      line(p[0] - x0 + 0.5, p[1] - y0 + 0.5, q[0] - x0 + 0.5, q[1] - y0 + 0.5);
    }
    return this;
  }

  /** Share covered, row by row. */
  float[] shares() {
    float[] out = new float[width * height];
    for (int y = 0; y < height; y++) {
      float s = 0;
      for (int x = 0; x < width; x++) {
        s += area[y * (width + 2) + x];
        out[y * width + x] = Math.min(1, Math.abs(s));
      }
    }
    return out;
  }

  private void line(double ax, double ay, double bx, double by) {
    if (ay == by) {
      return;
    }
    double dir = ay < by ? 1 : -1;
    double xTop = ay < by ? ax : bx;
    double yTop = Math.min(ay, by);
    double yLow = Math.max(ay, by);
    double slope = (bx - ax) / (by - ay);
    int first = Math.max(0, (int) Math.floor(yTop));
    int last = Math.min(height - 1, (int) Math.ceil(yLow) - 1);
    for (int y = first; y <= last; y++) {
      double from = Math.max(y, yTop);
      double to = Math.min(y + 1.0, yLow);
      double d = (to - from) * dir;
      span(y, xTop + slope * (from - yTop), xTop + slope * (to - yTop), d);
    }
  }

  /** Spreads the signed height d of an edge from u to v in a row over the cells it crosses. */
  private void span(int y, double u, double v, double d) {
    double lo = clamp(Math.min(u, v));
    double hi = clamp(Math.max(u, v));
    int i = (int) Math.floor(lo);
    int j = (int) Math.floor(hi);
    int row = y * (width + 2);
    if (i == j || hi - lo < 1e-12) {
      double m = (lo + hi) / 2 - i;
      area[row + i] += (float) (d * (1 - m));
      area[row + i + 1] += (float) (d * m);
      return;
    }
    double per = d / (hi - lo);
    for (int k = i; k <= j; k++) {
      double a = Math.max(lo, k);
      double b = Math.min(hi, k + 1.0);
      if (b <= a) {
        continue;
      }
      double part = per * (b - a);
      double m = (a + b) / 2 - k;
      area[row + k] += (float) (part * (1 - m));
      area[row + k + 1] += (float) (part * m);
    }
  }

  private double clamp(double x) {
    return Math.max(0, Math.min(width, x));
  }
}
