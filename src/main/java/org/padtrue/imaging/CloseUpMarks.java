package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.picture.Blobs;
import org.padtrue.imaging.picture.CircleFit;
import org.padtrue.imaging.picture.Picture;

/**
 * What close-ups of fiducials tell about the camera. One fiducial seen from two camera positions
 * and more gives scale and direction: its picture moves against the camera by the way the camera
 * went. One seen once gives the scale by its diameter, as well as etching keeps that.
 */
final class CloseUpMarks {
  /** Etched diameters are good to so much, mm: common practice, from memory. */
  private static final double ETCHING_MM = 0.02;

  /** Camera positions nearer together than this, root sum of squares, say nothing, mm. */
  private static final double LEAST_WAY_MM = 0.15;

  private static final double SUPPORT = 0.7;

  /**
   * A fiducial as one close-up shows it.
   *
   * @param closeUp which
   * @param mark the job's mark
   * @param cameraXMm panel position below the camera
   * @param dxPx from the camera's axis, x right, px
   * @param dyPx likewise, y up
   * @param uPx standard uncertainty of each
   * @param diameterPx size
   */
  record Seen(
      CloseUp closeUp,
      KnownMark mark,
      double cameraXMm,
      double cameraYMm,
      double dxPx,
      double dyPx,
      double uPx,
      double diameterPx) {}

  /**
   * The camera as the fiducials show it.
   *
   * @param pxPerMm scale; NaN when they do not tell
   * @param uRelative its standard uncertainty over the scale
   * @param rotationDeg direction of the panel's x; NaN when they do not tell
   * @param uRotationDeg its standard uncertainty
   * @param how one sentence
   */
  record Camera(
      double pxPerMm, double uRelative, double rotationDeg, double uRotationDeg, String how) {}

  private CloseUpMarks() {}

  /** Finds the fiducial of a close-up; null when there is none of a fitting size. */
  static @Nullable Seen find(
      Picture p, CloseUp c, KnownMark mark, double[] axisPx, double roughPxPerMm) {
    Blobs.Spot best = null;
    CircleFit.Mark circle = null;
    double top = 0;
    double half = Math.hypot(p.width(), p.height()) / 2;
    for (Blobs.Spot s : Blobs.find(p)) {
      double expected = mark.diameterMm() * roughPxPerMm;
      if (Double.isFinite(expected) && Math.abs(Math.log(s.diameter() / expected)) > 0.3) {
        continue;
      }
      CircleFit.Mark m = CircleFit.fit(p, s.x(), s.y(), s.diameter() / 2, 1);
      if (m == null || m.support() < SUPPORT) {
        continue;
      }
      double off = Math.hypot(m.x() - axisPx[0], m.y() - axisPx[1]) / half;
      double score = m.support() + 0.3 * s.quality() - 0.3 * off;
      boolean inner =
          circle != null
              && Math.hypot(m.x() - circle.x(), m.y() - circle.y()) < 0.3 * m.radius()
              && m.radius() < 0.8 * circle.radius();
      // Copper lies within its opening in the mask: of two rims about one point the inner one.
      if (best == null || score > top + (inner ? -0.2 : 0)) {
        best = s;
        circle = m;
        top = Math.max(score, top);
      }
    }
    if (circle == null) {
      return null;
    }
    return new Seen(
        c,
        mark,
        Double.isNaN(c.xMm()) ? mark.xMm() : c.xMm(),
        Double.isNaN(c.yMm()) ? mark.yMm() : c.yMm(),
        circle.x() - axisPx[0],
        axisPx[1] - circle.y(),
        Math.max(0.02, circle.u()),
        2 * circle.radius());
  }

  /** The camera by all fiducials seen; {@code mirrored} pictures are not expected here. */
  static Camera camera(List<Seen> seen, double placeUMm) {
    Camera byWay = byWay(seen, placeUMm);
    return byWay != null ? byWay : byDiameter(seen);
  }

  private static @Nullable Camera byWay(List<Seen> seen, double placeUMm) {
    Map<String, List<Seen>> marks = new LinkedHashMap<>();
    seen.forEach(s -> marks.computeIfAbsent(s.mark.name(), k -> new ArrayList<>()).add(s));
    double way = 0;
    double along = 0;
    double across = 0;
    int shots = 0;
    double u = 0;
    for (List<Seen> same : marks.values()) {
      double[] m = new double[4];
      for (Seen s : same) {
        double n = same.size();
        m[0] += s.cameraXMm / n;
        m[1] += s.cameraYMm / n;
        m[2] += s.dxPx / n;
        m[3] += s.dyPx / n;
      }
      for (Seen s : same) {
        // The mark goes the other way than the camera.
        double x = m[0] - s.cameraXMm;
        double y = m[1] - s.cameraYMm;
        double vx = s.dxPx - m[2];
        double vy = s.dyPx - m[3];
        way += x * x + y * y;
        along += x * vx + y * vy;
        across += x * vy - y * vx;
        u = Math.max(u, s.uPx);
      }
      shots += same.size() > 1 ? same.size() : 0;
    }
    if (Math.sqrt(way) < LEAST_WAY_MM) {
      return null;
    }
    double scale = Math.hypot(along, across) / way;
    double left = left(marks, along / way, across / way);
    int spare = 2 * shots - 2 * marks.size() - 2;
    double noise =
        Math.max(Math.hypot(u, placeUMm * scale), spare > 0 ? Math.sqrt(left / spare) : 0);
    double relative = noise / (scale * Math.sqrt(way));
    return new Camera(
        scale,
        relative,
        Math.toDegrees(Math.atan2(across, along)),
        Math.toDegrees(relative),
        "scale and direction by " + shots + " close-ups of fiducials from different places");
  }

  /** Sum of squares that a scale and direction leave, px. */
  private static double left(Map<String, List<Seen>> marks, double c, double s) {
    double sum = 0;
    for (List<Seen> same : marks.values()) {
      double[] m = new double[2];
      List<double[]> rests = new ArrayList<>();
      for (Seen v : same) {
        double x = -v.cameraXMm;
        double y = -v.cameraYMm;
        double[] rest = {v.dxPx - (c * x - s * y), v.dyPx - (s * x + c * y)};
        rests.add(rest);
        m[0] += rest[0] / same.size();
        m[1] += rest[1] / same.size();
      }
      for (double[] r : rests) {
        sum += Math.pow(r[0] - m[0], 2) + Math.pow(r[1] - m[1], 2);
      }
    }
    return sum;
  }

  private static Camera byDiameter(List<Seen> seen) {
    double scale = 0;
    double diameter = 0;
    int n = 0;
    for (Seen s : seen) {
      if (Double.isFinite(s.mark.diameterMm())) {
        scale += s.diameterPx / s.mark.diameterMm();
        diameter += s.mark.diameterMm();
        n++;
      }
    }
    if (n == 0) {
      return new Camera(
          Double.NaN,
          Double.NaN,
          Double.NaN,
          Double.NaN,
          "the fiducials were each seen from one place and have no diameter in the job");
    }
    // Etching errs alike on all of them.
    return new Camera(
        scale / n,
        ETCHING_MM / (diameter / n),
        Double.NaN,
        0,
        "scale by the diameter of " + n + " fiducials; take one from two places for a better one");
  }

  /** What an article says of a fiducial: where it was measured. */
  static MarkReport report(Seen s, double pxPerMm, double rotationDeg, double uMm) {
    double a = Math.toRadians(rotationDeg);
    double dx = (Math.cos(a) * s.dxPx + Math.sin(a) * s.dyPx) / pxPerMm;
    double dy = (-Math.sin(a) * s.dxPx + Math.cos(a) * s.dyPx) / pxPerMm;
    double x = s.cameraXMm + dx;
    double y = s.cameraYMm + dy;
    KnownMark m = s.mark;
    return new MarkReport(
        m.name(),
        Objects.requireNonNull(m.fiducial()).name(),
        m.board(),
        true,
        x,
        y,
        Math.hypot(uMm, s.uPx / pxPerMm),
        Math.hypot(x - m.xMm(), y - m.yMm()),
        "seen in a close-up");
  }
}
