package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.Peers;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.reader.PoseReader;
import org.padtrue.imaging.taught.TaughtLook;
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
   * What is known of the camera beforehand.
   *
   * @param pxPerMm scale at the board; NaN: find it by close-ups of fiducials, or by a lens model
   *     and the camera's distance
   * @param rotationDeg direction of the panel's x in the picture, counter-clockwise; NaN: find it
   *     by close-ups of fiducials, 0 where these do not tell
   * @param placeUMm standard uncertainty of the camera's place, mm
   */
  public record Known(double pxPerMm, double rotationDeg, double placeUMm) {}

  /** How the camera sees: scale, direction of the panel's x, uncertainty of its place, mm. */
  private record View(double pxPerMm, double rotationDeg, double placeUMm) {}

  /** The camera, and how well scale (relative) and direction (degrees) are known. */
  private record Sight(View view, double uScale, double uTurnDeg, List<String> notes) {}

  private final List<Sites.Site> sites;
  private final List<KnownMark> marks;
  private final DetectionOptions options;
  private final TaughtLooks looks;
  private final List<Problem> problems = new ArrayList<>();

  private CloseUpDetection(Job job, DetectionOptions options) {
    this.options = options;
    this.sites = Sites.of(job);
    this.marks = KnownMark.of(job);
    this.looks = new TaughtLooks(sites, options);
  }

  /**
   * Measures every close-up; close-ups of fiducials, where there are any, tell what is not known of
   * the camera, and go into the article.
   *
   * @throws InputException for pictures that cannot be read, refs or boards the job lacks, and when
   *     nothing tells the scale
   */
  public static DetectionResult measure(
      Job job, List<CloseUp> closeUps, Known known, DetectionOptions options) {
    return new CloseUpDetection(job, options).run(closeUps, known);
  }

  private DetectionResult run(List<CloseUp> closeUps, Known known) {
    List<CloseUp> parts = new ArrayList<>();
    List<CloseUpMarks.Seen> seen = new ArrayList<>();
    double rough = Double.isNaN(known.pxPerMm) ? byLens() : known.pxPerMm;
    for (CloseUp c : closeUps) {
      if (site(sites, c) != null) {
        twice(parts, c);
        parts.add(c);
      } else {
        mark(c, rough, seen);
      }
    }
    stopIfBad();
    Sight sight = sight(known, seen);
    List<PlacementReading> readings = new ArrayList<>();
    MapReport[] maps = new MapReport[closeUps.size()];
    learn(parts, sight);
    for (int i = 0; i < maps.length; i++) {
      CloseUp c = closeUps.get(i);
      List<MarkReport> own =
          seen.stream()
              .filter(s -> s.closeUp() == c)
              .map(
                  s ->
                      CloseUpMarks.report(
                          s,
                          sight.view.pxPerMm(),
                          sight.view.rotationDeg(),
                          Math.hypot(
                              known.placeUMm,
                              carried(sight, Math.hypot(s.dxPx(), s.dyPx()) / sight.view.pxPerMm))))
              .toList();
      maps[i] = report(c.picture().toString(), sight.view, own);
      if (parts.contains(c)) {
        read(c, sight, i, readings);
      }
    }
    stopIfBad();
    looks.done();
    List<String> notes = new ArrayList<>(sight.notes);
    looks.used().forEach(t -> notes.add(t.caution()));
    return new DetectionResult(
        Peers.judge(readings), List.of(maps), Optional.empty(), notes, looks.used());
  }

  /** An article holds a placement once; fiducials may be taken from many places. */
  private void twice(List<CloseUp> parts, CloseUp c) {
    for (CloseUp p : parts) {
      if (p.panel().equals(c.panel())
          && p.column() == c.column()
          && p.row() == c.row()
          && p.ref().equals(c.ref())) {
        problems.add(
            Problem.of(
                c.picture().toString(),
                c.panel()
                    + " "
                    + c.column()
                    + "/"
                    + c.row()
                    + "/"
                    + c.ref()
                    + " is shown by "
                    + p.picture()
                    + " already",
                "give one picture of each placement, or name another panel"));
        return;
      }
    }
  }

  private void stopIfBad() {
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  /** Samples are learnt first, so that every picture of their types is measured by them. */
  private void learn(List<CloseUp> parts, Sight sight) {
    for (CloseUp c : parts) {
      if (looks.wants(c)) {
        try (Picture p = PictureReader.read(c.picture())) {
          Sites.Site s = java.util.Objects.requireNonNull(site(sites, c));
          looks.learnFrom(p, map(p, placeX(c, s), placeY(c, s), sight.view, options), c);
        }
      }
    }
  }

  private void read(CloseUp c, Sight sight, int index, List<PlacementReading> out) {
    Sites.Site s = java.util.Objects.requireNonNull(site(sites, c));
    try (Picture p = PictureReader.read(c.picture())) {
      PlacementReading r = one(p, s, c, sight.view, options, looks.of(s.type()), index);
      Pose q = r.pose();
      if (q != null) {
        // Scale and direction err by how far the part stands from the camera's axis.
        double off = Math.hypot(q.xMm() - placeX(c, s), q.yMm() - placeY(c, s));
        r = r.at(q, Math.hypot(r.uMm(), carried(sight, off)));
        r = r.turnU(Math.hypot(r.uRotationDeg(), sight.uTurnDeg));
      }
      out.add(r);
    } catch (InputException e) {
      problems.addAll(e.problems());
    }
  }

  private static double carried(Sight s, double offMm) {
    return offMm * Math.hypot(s.uScale, Math.toRadians(s.uTurnDeg)) / Math.sqrt(2);
  }

  private void mark(CloseUp c, double rough, List<CloseUpMarks.Seen> seen) {
    KnownMark m =
        marks.stream()
            .filter(k -> k.fiducial().name().equals(c.ref()))
            .filter(k -> k.board().equals(new BoardIndex(c.column(), c.row())))
            .findFirst()
            .orElse(null);
    if (m == null) {
      problems.add(
          Problem.of(
              c.picture().toString(),
              "the job has no placement " + c.column() + "/" + c.row() + "/" + c.ref(),
              "check column, row and ref"));
      return;
    }
    try (Picture p = PictureReader.read(c.picture())) {
      CloseUpMarks.Seen s = CloseUpMarks.find(p, c, m, axis(p, options.camera()), rough);
      if (s == null) {
        problems.add(
            Problem.of(
                c.picture().toString(),
                "no round mark that could be fiducial " + c.ref() + " is seen",
                "take it again, or leave the picture out"));
      } else {
        seen.add(s);
      }
    } catch (InputException e) {
      problems.addAll(e.problems());
    }
  }

  /** Scale by lens and distance; NaN when one of them is not known. */
  private double byLens() {
    CameraModel lens = options.camera();
    return lens != null && Double.isFinite(options.cameraDistanceMm())
        ? (lens.fxPx() + lens.fyPx()) / 2 / options.cameraDistanceMm()
        : Double.NaN;
  }

  private Sight sight(Known known, List<CloseUpMarks.Seen> seen) {
    List<String> notes = new ArrayList<>();
    CloseUpMarks.Camera by = seen.isEmpty() ? null : CloseUpMarks.camera(seen, known.placeUMm);
    double scale = known.pxPerMm;
    double uScale = 0;
    double turn = known.rotationDeg;
    double uTurn = 0;
    if (by != null) {
      if (Double.isNaN(scale) && Double.isFinite(by.pxPerMm())) {
        scale = by.pxPerMm();
        uScale = by.uRelative();
        notes.add(
            String.format(
                java.util.Locale.ROOT, "%s: %.3f px/mm +- %.2f %%", by.how(), scale, 100 * uScale));
      } else if (Math.abs(by.pxPerMm() / scale - 1) > Math.max(0.01, 3 * by.uRelative())) {
        notes.add(
            String.format(
                java.util.Locale.ROOT,
                "the fiducials say %.3f px/mm +- %.2f %%, --scale says %.3f",
                by.pxPerMm(),
                100 * by.uRelative(),
                scale));
      }
      if (Double.isNaN(turn) && Double.isFinite(by.rotationDeg())) {
        turn = by.rotationDeg();
        uTurn = by.uRotationDeg();
        notes.add(
            String.format(
                java.util.Locale.ROOT,
                "the panel's x points %.3f degrees +- %.3f in the close-ups, by the fiducials",
                turn,
                uTurn));
      }
    }
    if (Double.isNaN(scale)) {
      scale = byLens();
      if (Double.isFinite(scale)) {
        notes.add(
            String.format(java.util.Locale.ROOT, "scale by lens and distance: %.3f px/mm", scale));
      }
    }
    if (!(scale > 0)) {
      throw new InputException(
          Problem.of(
              "close-ups",
              by == null ? "nothing tells their scale" : by.how(),
              "give --scale PX_PER_MM, close-ups of a fiducial, or --camera with --distance"));
    }
    View v = new View(scale, Double.isNaN(turn) ? 0 : turn, known.placeUMm);
    return new Sight(v, uScale, uTurn, notes);
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

  private static double placeX(CloseUp c, Sites.Site s) {
    return Double.isNaN(c.xMm()) ? s.nominal().xMm() : c.xMm();
  }

  private static double placeY(CloseUp c, Sites.Site s) {
    return Double.isNaN(c.yMm()) ? s.nominal().yMm() : c.yMm();
  }

  private static PlacementReading one(
      Picture p,
      Sites.Site s,
      CloseUp c,
      View view,
      DetectionOptions options,
      @Nullable TaughtLook look,
      int index) {
    PanelToPicture map = map(p, placeX(c, s), placeY(c, s), view, options);
    PartPose r = new PoseReader(p, map, PoseReader.REACH_MM).read(s.type(), look, s.nominal(), 1);
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
    CameraModel lens = options.camera();
    double px = axis(p, lens)[0];
    double py = axis(p, lens)[1];
    double[] h = {c, -s, px - (c * x - s * y), -s, -c, py + s * x + c * y, 0, 0, 1};
    PanelToPicture map = new PanelToPicture(h, lens);
    return Double.isFinite(options.cameraDistanceMm())
        ? map.from(x, y, options.cameraDistanceMm())
        : map;
  }

  /** Where the camera's axis meets the picture. */
  private static double[] axis(Picture p, @Nullable CameraModel lens) {
    return lens == null
        ? new double[] {(p.width() - 1) / 2.0, (p.height() - 1) / 2.0}
        : new double[] {lens.cxPx(), lens.cyPx()};
  }

  private static MapReport report(String name, View v, List<MarkReport> own) {
    return new MapReport(
        name,
        RegisteredOn.CAMERA,
        MapFamily.SIMILARITY,
        v.pxPerMm(),
        v.rotationDeg(),
        false,
        0,
        Double.NaN,
        0,
        v.placeUMm(),
        own,
        List.of("measured against the camera's place: errors of the axes that move it remain"));
  }
}
