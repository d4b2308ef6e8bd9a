package org.padtrue.imaging.registration;

import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;
import org.bytedeco.opencv.opencv_imgproc.LineSegmentDetector;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Picture;

/**
 * How a picture was tilted, from its straight lines alone. On a board nearly all lines run in two
 * directions at right angles; in a view from the side they run together. The view is turned in
 * thought until they are square again.
 *
 * <p>Needs perspective: a view from the side and far away only shortens, which lines do not show.
 */
final class LineTilt {
  /**
   * A view turned square.
   *
   * @param rectify picture px to square px, 9 numbers; keeps the picture's middle and the scale
   *     there
   * @param tiltDeg angle between the view and the board's normal
   * @param square 0 (lines run anywhere) to 1 (all at right angles) after turning
   * @param asTaken the same before
   */
  record View(double[] rectify, double tiltDeg, double square, double asTaken) {}

  /** Longer side of the picture that lines are looked for in, px. */
  private static final double WORK_PX = 1000;

  private static final double SHORTEST_PX = 12;
  private static final double MOST_DEG = 65;
  private static final double STEP_DEG = 6;

  /** What a degree of tilt must make lines squarer by, to be believed. */
  private static final double COST_PER_DEG = 0.0005;

  private static final int FEW = 30;

  /** Widths of the bell, wide to find the place, narrow to settle it. */
  private static final double[] WIDTHS_DEG = {6, 3, 1.5};

  private static final int STARTS = 6;

  private final double width;
  private final double height;
  private final List<double[]> lines;

  private LineTilt(double width, double height, List<double[]> lines) {
    this.width = width;
    this.height = height;
    this.lines = lines;
  }

  /** Finds the lines of a picture. */
  static LineTilt of(Picture p) {
    double shrink = Math.max(1, Math.max(p.width(), p.height()) / WORK_PX);
    List<double[]> out = new ArrayList<>();
    try (Mat small = new Mat();
        Mat grey = new Mat();
        Mat found = new Mat();
        LineSegmentDetector detector = opencv_imgproc.createLineSegmentDetector()) {
      Size size =
          new Size((int) Math.round(p.width() / shrink), (int) Math.round(p.height() / shrink));
      opencv_imgproc.resize(p.mat(), small, size, 0, 0, opencv_imgproc.INTER_AREA);
      opencv_imgproc.cvtColor(small, grey, opencv_imgproc.COLOR_BGR2GRAY);
      detector.detect(grey, found);
      FloatBuffer f = found.empty() ? FloatBuffer.allocate(0) : found.createBuffer();
      for (int i = 0; i + 3 < f.limit(); i += 4) {
        double[] l = {f.get(i), f.get(i + 1), f.get(i + 2), f.get(i + 3)};
        if (Math.hypot(l[2] - l[0], l[3] - l[1]) >= SHORTEST_PX) {
          for (int k = 0; k < 4; k++) {
            l[k] *= shrink;
          }
          out.add(l);
        }
      }
    }
    return new LineTilt(p.width(), p.height(), out);
  }

  /** The lines of the picture with left and right exchanged. */
  LineTilt mirrored() {
    double w = width - 1;
    return new LineTilt(
        width,
        height,
        lines.stream().map(l -> new double[] {w - l[0], l[1], w - l[2], l[3]}).toList());
  }

  /** Direction that most lines run along, modulo a right angle, -45 to 45 degrees, y up. */
  double directionDeg() {
    if (lines.size() < FEW) {
      return 0;
    }
    double cos = 0;
    double sin = 0;
    for (double[] l : lines) {
      double a = Math.atan2(-(l[3] - l[1]), l[2] - l[0]);
      double w = Math.hypot(l[2] - l[0], l[3] - l[1]);
      cos += w * Math.cos(4 * a);
      sin += w * Math.sin(4 * a);
    }
    return Math.toDegrees(Math.atan2(sin, cos)) / 4;
  }

  /**
   * The view that makes the lines square, for a camera of that focal length.
   *
   * @param focalPx focal length, px
   */
  View turned(double focalPx) {
    double asTaken = square(0, 0, focalPx, WIDTHS_DEG[WIDTHS_DEG.length - 1]);
    if (lines.size() < FEW) {
      return new View(rectify(0, 0, focalPx), 0, asTaken, asTaken);
    }
    List<double[]> starts = new ArrayList<>();
    for (double i = -MOST_DEG; i <= MOST_DEG; i += STEP_DEG) {
      for (double k = -MOST_DEG; k <= MOST_DEG; k += STEP_DEG) {
        starts.add(new double[] {worth(i, k, focalPx, WIDTHS_DEG[0]), i, k});
      }
    }
    starts.sort(Comparator.comparingDouble((double[] v) -> -v[0]));
    double[] best = {worth(0, 0, focalPx, WIDTHS_DEG[WIDTHS_DEG.length - 1]), 0, 0};
    for (double[] start : starts.subList(0, STARTS)) {
      double[] v = start;
      for (double widthDeg : WIDTHS_DEG) {
        v = climbed(v[1], v[2], focalPx, widthDeg);
      }
      best = v[0] > best[0] ? v : best;
    }
    double last = WIDTHS_DEG[WIDTHS_DEG.length - 1];
    return new View(
        rectify(best[1], best[2], focalPx),
        tilt(best[1], best[2]),
        square(best[1], best[2], focalPx, last),
        asTaken);
  }

  private double[] climbed(double aDeg, double bDeg, double focal, double widthDeg) {
    double a = aDeg;
    double b = bDeg;
    double best = worth(a, b, focal, widthDeg);
    for (double step = widthDeg / 2; step > widthDeg / 30; step /= 2) {
      boolean moved = true;
      while (moved) {
        moved = false;
        for (int k = 0; k < 4; k++) {
          double da = k == 0 ? step : k == 1 ? -step : 0;
          double db = k == 2 ? step : k == 3 ? -step : 0;
          double v = worth(a + da, b + db, focal, widthDeg);
          if (v > best) {
            best = v;
            a += da;
            b += db;
            moved = true;
          }
        }
      }
    }
    return new double[] {best, a, b};
  }

  private double worth(double a, double b, double focal, double widthDeg) {
    double tilt = tilt(a, b);
    return tilt > MOST_DEG ? 0 : square(a, b, focal, widthDeg) * (1 - COST_PER_DEG * tilt);
  }

  private static double tilt(double aDeg, double bDeg) {
    return Math.toDegrees(
        Math.acos(Math.cos(Math.toRadians(aDeg)) * Math.cos(Math.toRadians(bDeg))));
  }

  /** Rotation by a about the picture's x and b about its y. */
  private static double[] rotation(double aDeg, double bDeg) {
    double ca = Math.cos(Math.toRadians(aDeg));
    double sa = Math.sin(Math.toRadians(aDeg));
    double cb = Math.cos(Math.toRadians(bDeg));
    double sb = Math.sin(Math.toRadians(bDeg));
    return new double[] {cb, 0, sb, sa * sb, ca, -sa * cb, -ca * sb, sa, ca * cb};
  }

  private double[] rectify(double aDeg, double bDeg, double focal) {
    double cx = (width - 1) / 2;
    double cy = (height - 1) / 2;
    double[] toRay = {1 / focal, 0, -cx / focal, 0, 1 / focal, -cy / focal, 0, 0, 1};
    double[] toPx = {focal, 0, 0, 0, focal, 0, 0, 0, 1};
    double[] r = Matrices.product3(toPx, Matrices.product3(rotation(aDeg, bDeg), toRay));
    PanelToPicture map = new PanelToPicture(r, null);
    double k = 1 / map.scaleAt(cx, cy);
    double[] q = map.at(cx, cy);
    return Matrices.product3(new double[] {k, 0, cx - k * q[0], 0, k, cy - k * q[1], 0, 0, 1}, r);
  }

  /**
   * Share of the lines' length that runs along two directions at right angles once the view is
   * turned; lines count the less the further they are off, by a bell that wide.
   */
  private double square(double aDeg, double bDeg, double focal, double widthDeg) {
    double[] r = rotation(aDeg, bDeg);
    double[] re = new double[lines.size()];
    double[] im = new double[lines.size()];
    double[] w = new double[lines.size()];
    double cos = 0;
    double sin = 0;
    double all = 0;
    for (int i = 0; i < w.length; i++) {
      double[] l = lines.get(i);
      double[] p = ray(r, l[0], l[1], focal);
      double[] q = ray(r, l[2], l[3], focal);
      double length = Math.hypot(l[2] - l[0], l[3] - l[1]);
      all += length;
      if (p[2] < 0.15 || q[2] < 0.15) {
        continue;
      }
      double x = q[0] / q[2] - p[0] / p[2];
      double y = q[1] / q[2] - p[1] / p[2];
      double n = x * x + y * y;
      // Direction, doubled twice: the same for all four directions of a right-angled cross.
      double c = (x * x - y * y) / n;
      double s = 2 * x * y / n;
      w[i] = length;
      re[i] = c * c - s * s;
      im[i] = 2 * c * s;
      cos += length * re[i];
      sin += length * im[i];
    }
    double norm = Math.hypot(cos, sin);
    if (!(norm > 0)) {
      return 0;
    }
    // 1 - cos(4 d) is 8 d^2 for a small angle d off the cross.
    double bell = 1 / (8 * Math.pow(Math.toRadians(widthDeg), 2) * 2);
    double sum = 0;
    for (int i = 0; i < w.length; i++) {
      double off = 1 - (re[i] * cos + im[i] * sin) / norm;
      sum += w[i] * Math.exp(-off * bell);
    }
    return sum / all;
  }

  private double[] ray(double[] r, double x, double y, double focal) {
    double u = (x - (width - 1) / 2) / focal;
    double v = (y - (height - 1) / 2) / focal;
    return new double[] {
      r[0] * u + r[1] * v + r[2], r[3] * u + r[4] * v + r[5], r[6] * u + r[7] * v + r[8]
    };
  }
}
