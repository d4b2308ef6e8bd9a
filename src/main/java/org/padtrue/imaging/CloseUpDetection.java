package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Measures close-ups: one picture per placement from a camera whose place over the panel is known.
 * The map is scale, turn and place of the camera; its errors are those of the axes that moved it.
 */
public final class CloseUpDetection {
  /**
   * How the camera sees.
   *
   * @param pxPerMm scale at the board
   * @param rotationDeg direction of the panel's x in the picture, counter-clockwise
   * @param mirrored picture seen as from behind
   * @param placeUMm standard uncertainty of the camera's place, mm; 0 when it is the reference
   */
  public record View(double pxPerMm, double rotationDeg, boolean mirrored, double placeUMm) {
    public View {
      if (!(pxPerMm > 0) || !(placeUMm >= 0)) {
        throw new IllegalArgumentException(
            "pxPerMm = " + pxPerMm + ", placeUMm = " + placeUMm + "; expected > 0 and >= 0");
      }
    }
  }

  private CloseUpDetection() {}

  /**
   * Measures every close-up.
   *
   * @throws InputException for pictures that cannot be read and refs or boards the job lacks
   */
  public static DetectionResult measure(
      Job job, List<CloseUp> closeUps, View view, DetectionOptions options) {
    List<Sites.Site> sites = Sites.of(job);
    List<Problem> problems = new ArrayList<>();
    List<PlacementReading> readings = new ArrayList<>();
    List<MapReport> maps = new ArrayList<>();
    for (CloseUp c : closeUps) {
      Sites.Site s = site(sites, c);
      if (s == null) {
        problems.add(
            Problem.of(
                c.picture().toString(),
                "the job has no placement " + c.column() + "/" + c.row() + "/" + c.ref(),
                "check column, row and ref"));
        continue;
      }
      try (Picture p = PictureReader.read(c.picture())) {
        readings.add(one(p, s, c, view, options, maps.size()));
        maps.add(report(p, view));
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return new DetectionResult(
        Peers.judge(readings), maps, Optional.empty(), List.of(), List.of());
  }

  private static Sites.@Nullable Site site(List<Sites.Site> sites, CloseUp c) {
    for (Sites.Site s : sites) {
      if (s.board().equals(new BoardIndex(c.column(), c.row()))
          && s.placement().ref().equals(c.ref())) {
        return s;
      }
    }
    return null;
  }

  static PlacementReading one(
      Picture p, Sites.Site s, CloseUp c, View view, DetectionOptions options, int index) {
    double x = Double.isNaN(c.xMm()) ? s.nominal().xMm() : c.xMm();
    double y = Double.isNaN(c.yMm()) ? s.nominal().yMm() : c.yMm();
    PanelToPicture map = map(p, x, y, view, options);
    PartPose r = new PoseReader(p, map, PoseReader.REACH_MM).read(s.type(), s.nominal(), 1);
    Pose q = r.pose();
    double[] px =
        map.at(q == null ? s.nominal().xMm() : q.xMm(), q == null ? s.nominal().yMm() : q.yMm());
    return new PlacementReading(
        c.panel(),
        s.board(),
        s.placement(),
        s.nominal(),
        r.status(),
        q,
        Math.hypot(r.uMm(), view.placeUMm()),
        r.uRotationDeg(),
        r.score(),
        index,
        px[0],
        px[1],
        r.note());
  }

  private static PanelToPicture map(
      Picture p, double x, double y, View v, DetectionOptions options) {
    double a = Math.toRadians(v.rotationDeg());
    double c = v.pxPerMm() * Math.cos(a);
    double s = v.pxPerMm() * Math.sin(a);
    double sx = v.mirrored() ? -1 : 1;
    CameraModel lens = options.camera();
    double px = lens == null ? (p.width() - 1) / 2.0 : lens.cxPx();
    double py = lens == null ? (p.height() - 1) / 2.0 : lens.cyPx();
    double[] h = {sx * c, -sx * s, px - sx * (c * x - s * y), -s, -c, py + s * x + c * y, 0, 0, 1};
    PanelToPicture map = new PanelToPicture(h, lens);
    return Double.isFinite(options.cameraDistanceMm())
        ? map.from(x, y, options.cameraDistanceMm())
        : map;
  }

  private static MapReport report(Picture p, View v) {
    return new MapReport(
        p.name(),
        RegisteredOn.CAMERA,
        MapFamily.SIMILARITY,
        v.pxPerMm(),
        v.rotationDeg(),
        v.mirrored(),
        0,
        Double.NaN,
        0,
        v.placeUMm(),
        List.of(),
        List.of("measured against the camera's place: errors of the axes that move it remain"));
  }
}
