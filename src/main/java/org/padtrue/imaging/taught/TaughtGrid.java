package org.padtrue.imaging.taught;

/**
 * A taught look on the grid that it is compared on: values, weights and derivatives, cell by cell,
 * row by row, rows down.
 */
public final class TaughtGrid {
  final int width;
  final int height;
  final double originX;
  final double originY;
  final double cellMm;
  final double[][] values = new double[3][];
  final double[] weights;

  /** True where the part itself is seen, not its rim. */
  final boolean[] own;

  /** Second derivative of the values: what a little more or less blur adds. */
  final double[][] curvature = new double[3][];

  /** Colour of the ground around the sample. */
  final double[] ground;

  /** How much the part's colours differ from the ground's, root mean square, all channels. */
  public final double contrast;

  private TaughtGrid(
      int width,
      int height,
      double originX,
      double originY,
      double cellMm,
      double[] ground,
      double[][] values,
      double[] weights,
      boolean[] own) {
    this.width = width;
    this.height = height;
    this.originX = originX;
    this.originY = originY;
    this.cellMm = cellMm;
    this.ground = ground;
    this.weights = weights;
    this.own = own;
    for (int c = 0; c < 3; c++) {
      this.values[c] = values[c];
      curvature[c] = laplace(values[c]);
    }
    double s = 0;
    double n = 1e-9;
    for (int k = 0; k < own.length; k++) {
      if (own[k]) {
        for (int c = 0; c < 3; c++) {
          s += Math.pow(values[c][k] - ground[c], 2);
        }
        n++;
      }
    }
    contrast = Math.sqrt(s / n);
  }

  /** The look on cells of a size, mm; the look's own pixels where that is nearly their size. */
  public static TaughtGrid of(TaughtLook t, double wantedCellMm) {
    double pixel = 1 / t.pxPerMm();
    double ratio = Math.abs(wantedCellMm / pixel - 1) < 0.03 ? 1 : wantedCellMm / pixel;
    int[] box = box(t);
    int x0 = (int) Math.floor((box[0] - t.originXPx()) / ratio) - 2;
    int y0 = (int) Math.floor((box[1] - t.originYPx()) / ratio) - 2;
    int x1 = (int) Math.ceil((box[2] - t.originXPx()) / ratio) + 2;
    int y1 = (int) Math.ceil((box[3] - t.originYPx()) / ratio) + 2;
    // On the look's own pixels cells coincide with them, wherever the origin lies between.
    double fx = ratio == 1 ? t.originXPx() - Math.floor(t.originXPx()) : 0;
    double fy = ratio == 1 ? t.originYPx() - Math.floor(t.originYPx()) : 0;
    int w = x1 - x0 + 1;
    int h = y1 - y0 + 1;
    double ox = -x0 + fx;
    double oy = -y0 + fy;
    double[][] v = new double[3][w * h];
    double[] weight = new double[w * h];
    boolean[] own = new boolean[w * h];
    int sub = ratio == 1 ? 1 : Math.max(1, Math.min(8, (int) Math.ceil(1.5 * ratio)));
    double[] s = new double[5];
    for (int j = 0; j < h; j++) {
      for (int i = 0; i < w; i++) {
        double[] sum = new double[5];
        for (int k = 0; k < sub * sub; k++) {
          double x = t.originXPx() + ratio * (i - ox + (k % sub + 0.5) / sub - 0.5);
          double y = t.originYPx() + ratio * (j - oy + (k / sub + 0.5) / sub - 0.5);
          bilinear(t, x, y, s);
          for (int c = 0; c < 5; c++) {
            sum[c] += s[c] / (sub * sub);
          }
        }
        int k = j * w + i;
        for (int c = 0; c < 3; c++) {
          v[c][k] = sum[c];
        }
        weight[k] = sum[3];
        own[k] = sum[4] > 0.5;
      }
    }
    return new TaughtGrid(w, h, ox, oy, ratio * pixel, ground(t), v, weight, own);
  }

  /** Smallest box of what counts: x0, y0, x1, y1, px. */
  private static int[] box(TaughtLook t) {
    int[] b = {t.widthPx(), t.heightPx(), -1, -1};
    for (int y = 0; y < t.heightPx(); y++) {
      for (int x = 0; x < t.widthPx(); x++) {
        if (t.at(x, y, 3) > 0) {
          b[0] = Math.min(b[0], x);
          b[1] = Math.min(b[1], y);
          b[2] = Math.max(b[2], x);
          b[3] = Math.max(b[3], y);
        }
      }
    }
    return b[2] < 0 ? new int[] {0, 0, t.widthPx() - 1, t.heightPx() - 1} : b;
  }

  private static double[] ground(TaughtLook t) {
    double[] g = new double[3];
    int n = t.widthPx() * t.heightPx();
    for (int c = 0; c < 3; c++) {
      double[] v = new double[n];
      int m = 0;
      for (int k = 0; k < n; k++) {
        if (t.at(k % t.widthPx(), k / t.widthPx(), 3) == 0) {
          v[m++] = t.at(k % t.widthPx(), k / t.widthPx(), c);
        }
      }
      java.util.Arrays.sort(v, 0, m);
      g[c] = m == 0 ? 0 : v[m / 2];
    }
    return g;
  }

  /** Colours between the pixels; weight and whether it is the part's of the nearest. */
  private static void bilinear(TaughtLook t, double x, double y, double[] out) {
    double xc = Math.max(0, Math.min(t.widthPx() - 1.0001, x));
    double yc = Math.max(0, Math.min(t.heightPx() - 1.0001, y));
    int xi = (int) xc;
    int yi = (int) yc;
    double fx = xc - xi;
    double fy = yc - yi;
    for (int c = 0; c < 3; c++) {
      double top = t.at(xi, yi, c) * (1 - fx) + t.at(xi + 1, yi, c) * fx;
      double low = t.at(xi, yi + 1, c) * (1 - fx) + t.at(xi + 1, yi + 1, c) * fx;
      out[c] = top * (1 - fy) + low * fy;
    }
    int xn = (int) Math.round(xc);
    int yn = (int) Math.round(yc);
    out[3] = t.weight(xn, yn);
    out[4] = t.at(xn, yn, 3) >= TaughtLook.OWN ? 1 : 0;
  }

  private double[] laplace(double[] v) {
    double[] out = new double[v.length];
    for (int j = 1; j < height - 1; j++) {
      for (int i = 1; i < width - 1; i++) {
        int k = j * width + i;
        out[k] = v[k - 1] + v[k + 1] + v[k - width] + v[k + width] - 4 * v[k];
      }
    }
    return out;
  }

  /** Part-frame x of a cell, mm. */
  double x(int k) {
    return (k % width - originX) * cellMm;
  }

  /** Part-frame y of a cell, mm. */
  double y(int k) {
    return (originY - k / width) * cellMm;
  }
}
