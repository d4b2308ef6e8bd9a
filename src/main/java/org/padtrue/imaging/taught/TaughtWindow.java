package org.padtrue.imaging.taught;

import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * A picture seen from the part frame: a grid of cells about a pose. Rows run down, as in a picture:
 * cell (i, j) lies at ((i - originX) cell, (originY - j) cell) of the part frame.
 */
public final class TaughtWindow {
  final int width;
  final int height;

  /** Blue, green, red: planes row by row; NaN where the picture has nothing. */
  public final double[][] values;

  private TaughtWindow(int width, int height) {
    this.width = width;
    this.height = height;
    this.values = new double[3][width * height];
  }

  /**
   * Samples.
   *
   * @param picture pixels
   * @param map of the picture
   * @param pose of the part frame, panel frame
   * @param heightMm of the part's top
   * @param originX the part's origin in the grid, cells
   * @param originY likewise, down
   * @param cellMm side of a cell
   */
  public static TaughtWindow of(
      PixelSampler picture,
      PanelToPicture map,
      Pose pose,
      double heightMm,
      int width,
      int height,
      double originX,
      double originY,
      double cellMm) {
    TaughtWindow w = new TaughtWindow(width, height);
    double[] p = map.at(pose.xMm(), pose.yMm(), heightMm);
    double[] m = map.jacobian(pose.xMm(), pose.yMm(), heightMm);
    double c = Angles.cosDeg(pose.rotationDeg()) * cellMm;
    double s = Angles.sinDeg(pose.rotationDeg()) * cellMm;
    // A pixel that is finer than a cell is averaged over the cell.
    int sub =
        Math.max(
            1, Math.min(6, (int) Math.round(0.75 * map.scaleAt(pose.xMm(), pose.yMm()) * cellMm)));
    double[] v = new double[3];
    for (int j = 0; j < height; j++) {
      for (int i = 0; i < width; i++) {
        double b = 0;
        double g = 0;
        double r = 0;
        for (int k = 0; k < sub * sub; k++) {
          double u = i - originX + (k % sub + 0.5) / sub - 0.5;
          double q = originY - j + (k / sub + 0.5) / sub - 0.5;
          double x = c * u - s * q;
          double y = s * u + c * q;
          double px = p[0] + m[0] * x + m[1] * y;
          double py = p[1] + m[2] * x + m[3] * y;
          if (picture.holds(px, py)) {
            picture.at(px, py, v);
          } else {
            v[0] = Double.NaN;
            v[1] = Double.NaN;
            v[2] = Double.NaN;
          }
          b += v[0];
          g += v[1];
          r += v[2];
        }
        int k = j * width + i;
        w.values[0][k] = b / (sub * sub);
        w.values[1][k] = g / (sub * sub);
        w.values[2][k] = r / (sub * sub);
      }
    }
    return w;
  }
}
