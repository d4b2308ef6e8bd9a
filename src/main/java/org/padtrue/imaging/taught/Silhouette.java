package org.padtrue.imaging.taught;

import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Point;
import org.bytedeco.opencv.opencv_core.Rect;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.bytedeco.opencv.opencv_core.Size;

/**
 * Tells a sample's own pixels from the ground's by their colours (graph cut with colour mixtures,
 * Rother, Kolmogorov and Blake 2004): what stays where it is when the part moves, such as lands and
 * print, must not count when the part is looked for.
 */
public final class Silhouette {
  /** Smaller than this share of its box a shape is not believed; the box is taken. */
  private static final double LEAST = 0.2;

  /** Beyond the part's edge so many pixels belong to the blurred edge. */
  private static final int RIM_PX = 2;

  private static final int ROUNDS = 5;

  private final byte[] bgra;
  private final int width;
  private final int height;

  /**
   * @param bgra pixels, changed in place: the fourth byte tells part, edge and ground
   */
  public Silhouette(byte[] bgra, int width, int height) {
    this.bgra = bgra;
    this.width = width;
    this.height = height;
  }

  /**
   * Writes which pixels are the part's, which lie along its edge, and which are ground, see {@link
   * TaughtLook#OWN}.
   *
   * @param x left of the box that holds the part, px
   */
  public void mark(double x, double y, double w, double h) {
    int x0 = (int) Math.max(1, Math.floor(x));
    int y0 = (int) Math.max(1, Math.floor(y));
    int x1 = (int) Math.min(width - 2.0, Math.ceil(x + w));
    int y1 = (int) Math.min(height - 2.0, Math.ceil(y + h));
    Rect box = new Rect(x0, y0, x1 - x0, y1 - y0);
    byte[] shape = cut(box);
    int own = 0;
    for (byte b : shape) {
      own += b == 0 ? 0 : 1;
    }
    if (own < LEAST * box.area()) {
      for (int k = 0; k < shape.length; k++) {
        int i = k % width;
        int j = k / width;
        shape[k] = (byte) (i >= x0 && i < x1 && j >= y0 && j < y1 ? 255 : 0);
      }
    }
    byte[] wide = grown(shape);
    for (int k = 0; k < shape.length; k++) {
      bgra[4 * k + 3] = (byte) (shape[k] != 0 ? 255 : wide[k] != 0 ? TaughtLook.OWN - 1 : 0);
    }
  }

  private byte[] cut(Rect box) {
    byte[] bgr = new byte[3 * width * height];
    for (int k = 0; k < width * height; k++) {
      System.arraycopy(bgra, 4 * k, bgr, 3 * k, 3);
    }
    opencv_core.setRNGSeed(1);
    try (BytePointer data = new BytePointer(bgr);
        Mat m = new Mat(height, width, opencv_core.CV_8UC3, data);
        Mat mask = new Mat(height, width, opencv_core.CV_8U, new Scalar(0));
        Mat back = new Mat();
        Mat front = new Mat()) {
      opencv_imgproc.grabCut(m, mask, box, back, front, ROUNDS, opencv_imgproc.GC_INIT_WITH_RECT);
      byte[] out = bytes(mask);
      for (int k = 0; k < out.length; k++) {
        boolean mine = out[k] == opencv_imgproc.GC_FGD || out[k] == opencv_imgproc.GC_PR_FGD;
        out[k] = (byte) (mine ? 255 : 0);
      }
      return filled(out);
    }
  }

  /** Without specks, and without holes such as a light marking leaves. */
  private byte[] filled(byte[] shape) {
    try (BytePointer data = new BytePointer(shape);
        Mat m = new Mat(height, width, opencv_core.CV_8U, data);
        Mat round =
            opencv_imgproc.getStructuringElement(opencv_imgproc.MORPH_ELLIPSE, new Size(5, 5));
        Mat clean = new Mat()) {
      opencv_imgproc.morphologyEx(m, clean, opencv_imgproc.MORPH_OPEN, round);
      opencv_imgproc.morphologyEx(clean, clean, opencv_imgproc.MORPH_CLOSE, round);
      byte[] kept = bytes(clean);
      // The outermost pixels are ground: all ground that hangs together with them is outside.
      opencv_imgproc.floodFill(clean, new Point(0, 0), new Scalar(128));
      byte[] flooded = bytes(clean);
      for (int k = 0; k < kept.length; k++) {
        kept[k] = (byte) ((flooded[k] & 0xFF) == 128 ? 0 : 255);
      }
      return kept;
    }
  }

  private byte[] grown(byte[] shape) {
    int side = 2 * RIM_PX + 1;
    try (BytePointer data = new BytePointer(shape);
        Mat m = new Mat(height, width, opencv_core.CV_8U, data);
        Mat round =
            opencv_imgproc.getStructuringElement(
                opencv_imgproc.MORPH_ELLIPSE, new Size(side, side));
        Mat wide = new Mat()) {
      opencv_imgproc.dilate(m, wide, round);
      return bytes(wide);
    }
  }

  private static byte[] bytes(Mat m) {
    byte[] v = new byte[m.cols() * m.rows()];
    m.<java.nio.ByteBuffer>createBuffer().get(v);
    return v;
  }
}
