package org.padtrue.imaging.picture;

import java.nio.ByteBuffer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;

/**
 * A decoded colour picture: 8 bits, blue, green, red; px, x right, y down, centre of the first
 * pixel at (0, 0). Holds native memory until closed.
 */
public final class Picture implements AutoCloseable {
  private final Mat mat;
  private final ByteBuffer data;
  private final int step;
  // Asked for at every pixel: a call into the library each time would cost more than the pixel.
  private final int width;
  private final int height;
  private final String name;

  /**
   * @param name file name for messages
   * @param mat 8-bit, three channels; owned by the picture from now on
   */
  public Picture(String name, Mat mat) {
    this.name = name;
    this.mat = mat;
    this.data = mat.createBuffer();
    this.step = (int) mat.step();
    this.width = mat.cols();
    this.height = mat.rows();
  }

  public String name() {
    return name;
  }

  public int width() {
    return width;
  }

  public int height() {
    return height;
  }

  /** The library's own view, for calls that need it. */
  public Mat mat() {
    return mat;
  }

  /** One channel (0 blue, 1 green, 2 red) of the pixel at x, y, in 0 to 255. */
  public int at(int x, int y, int channel) {
    return data.get(y * step + 3 * x + channel) & 0xFF;
  }

  public boolean holds(double x, double y) {
    return x >= 0 && y >= 0 && x <= width() - 1.0 && y <= height() - 1.0;
  }

  /** The nearest pixel's channel, the border repeated outside. */
  public int nearest(double x, double y, int channel) {
    int xi = Math.max(0, Math.min(width - 1, (int) Math.round(x)));
    int yi = Math.max(0, Math.min(height - 1, (int) Math.round(y)));
    return at(xi, yi, channel);
  }

  /** The nearest pixel as 0xRRGGBB, the border repeated outside. */
  public int nearest(double x, double y) {
    int xi = Math.max(0, Math.min(width - 1, (int) Math.floor(x + 0.5)));
    int yi = Math.max(0, Math.min(height - 1, (int) Math.floor(y + 0.5)));
    int i = yi * step + 3 * xi;
    return data.get(i) & 0xFF | (data.get(i + 1) & 0xFF) << 8 | (data.get(i + 2) & 0xFF) << 16;
  }

  /** A copy, blurred by so much, px. */
  public Picture softened(double sigmaPx) {
    Mat out = new Mat();
    opencv_imgproc.GaussianBlur(mat, out, new Size(0, 0), sigmaPx);
    return new Picture(name, out);
  }

  /** A copy with left and right exchanged. */
  public Picture mirrored() {
    Mat out = new Mat();
    opencv_core.flip(mat, out, 1);
    return new Picture(name, out);
  }

  /** A copy of the same size as another view has it; black where nothing was taken. */
  public Picture seenBy(double[] toView) {
    Mat out = new Mat();
    try (Mat h = new Mat(3, 3, opencv_core.CV_64F)) {
      h.<java.nio.DoubleBuffer>createBuffer().put(toView);
      opencv_imgproc.warpPerspective(mat, out, h, mat.size());
    }
    return new Picture(name, out);
  }

  /** A copy reduced to a share of its size, by areas. */
  public Picture reduced(double share) {
    Mat out = new Mat();
    Size size = new Size((int) Math.round(share * width()), (int) Math.round(share * height()));
    opencv_imgproc.resize(mat, out, size, 0, 0, opencv_imgproc.INTER_AREA);
    return new Picture(name, out);
  }

  /** A window of the picture, clipped to it. */
  public Plane plane(double xMin, double yMin, double xMax, double yMax) {
    int x0 = (int) Math.max(0, Math.floor(xMin));
    int y0 = (int) Math.max(0, Math.floor(yMin));
    int x1 = (int) Math.min(width() - 1.0, Math.ceil(xMax));
    int y1 = (int) Math.min(height() - 1.0, Math.ceil(yMax));
    int w = Math.max(0, x1 - x0 + 1);
    int h = Math.max(0, y1 - y0 + 1);
    byte[] v = new byte[3 * w * h];
    for (int y = 0; y < h && w > 0; y++) {
      data.get((y0 + y) * step + 3 * x0, v, 3 * y * w, 3 * w);
    }
    return new Plane(x0, y0, w, h, v);
  }

  @Override
  public void close() {
    mat.close();
  }
}
