package org.padtrue.imaging.picture;

import java.nio.DoubleBuffer;
import java.nio.IntBuffer;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;

/**
 * Compact spots of a picture that may be fiducials: about as wide as high, alone on their ground.
 */
public final class Blobs {
  /**
   * A spot.
   *
   * @param x centre, px of the full picture
   * @param y centre, px
   * @param diameter mean of width and height, px
   * @param quality 0 to 1, how much it looks like a mark
   */
  public record Spot(double x, double y, double diameter, double quality) {
    /** The same spot of the picture of that width with left and right exchanged. */
    public Spot mirrored(int widthPx) {
      return new Spot(widthPx - 1.0 - x, y, diameter, quality);
    }
  }

  /** Enough to find a mark, small enough to look at whole. */
  private static final double WORK_PIXELS = 3.0e6;

  private static final int MAX_SPOTS = 450;

  private Blobs() {}

  public static List<Spot> find(Picture p) {
    double shrink = Math.max(1, Math.sqrt(p.width() * (double) p.height() / WORK_PIXELS));
    List<Spot> out = new ArrayList<>();
    try (Mat small = new Mat();
        Mat grey = new Mat()) {
      Size size =
          new Size((int) Math.round(p.width() / shrink), (int) Math.round(p.height() / shrink));
      opencv_imgproc.resize(p.mat(), small, size, 0, 0, opencv_imgproc.INTER_AREA);
      double fx = p.width() / (double) size.width();
      double fy = p.height() / (double) size.height();
      opencv_imgproc.cvtColor(small, grey, opencv_imgproc.COLOR_BGR2GRAY);
      collect(grey, fx, fy, out);
      opencv_core.extractChannel(small, grey, 2);
      collect(grey, fx, fy, out);
    }
    return merged(out);
  }

  private static void collect(Mat grey, double fx, double fy, List<Spot> out) {
    for (int block : new int[] {41, 151}) {
      for (int sign = -1; sign <= 1; sign += 2) {
        try (Mat mask = new Mat();
            Mat labels = new Mat();
            Mat stats = new Mat();
            Mat centres = new Mat()) {
          opencv_imgproc.adaptiveThreshold(
              grey,
              mask,
              255,
              opencv_imgproc.ADAPTIVE_THRESH_MEAN_C,
              sign < 0 ? opencv_imgproc.THRESH_BINARY : opencv_imgproc.THRESH_BINARY_INV,
              block,
              sign * 14.0);
          int n =
              opencv_imgproc.connectedComponentsWithStats(
                  mask, labels, stats, centres, 8, opencv_core.CV_32S);
          IntBuffer s = stats.createBuffer();
          DoubleBuffer c = centres.createBuffer();
          for (int i = 1; i < n; i++) {
            int w = s.get(5 * i + 2);
            int h = s.get(5 * i + 3);
            int area = s.get(5 * i + 4);
            if (w < 4 || h < 4 || w > 140 || h > 140) {
              continue;
            }
            double aspect = Math.max(w, h) / (double) Math.min(w, h);
            double fill = area / ((double) w * h);
            if (aspect > 1.35 || fill < 0.3) {
              continue;
            }
            double quality = 1 - Math.min(0.5, aspect - 1) - Math.min(0.5, Math.abs(fill - 0.785));
            out.add(
                new Spot(
                    (c.get(2 * i) + 0.5) * fx - 0.5,
                    (c.get(2 * i + 1) + 0.5) * fy - 0.5,
                    (w * fx + h * fy) / 2,
                    quality));
          }
        }
      }
    }
  }

  /** One spot for each place and size, the best first. */
  private static List<Spot> merged(List<Spot> all) {
    all.sort(java.util.Comparator.comparingDouble(Spot::quality).reversed());
    List<Spot> out = new ArrayList<>();
    for (Spot s : all) {
      boolean known = false;
      for (Spot o : out) {
        double near = 0.25 * Math.min(s.diameter, o.diameter);
        double ratio = Math.max(s.diameter, o.diameter) / Math.min(s.diameter, o.diameter);
        known |= Math.hypot(s.x - o.x, s.y - o.y) < near && ratio < 1.35;
      }
      if (!known) {
        out.add(s);
      }
      if (out.size() == MAX_SPOTS) {
        break;
      }
    }
    return out;
  }
}
