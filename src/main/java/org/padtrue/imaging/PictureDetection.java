package org.padtrue.imaging;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.camera.Reversal;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapFit;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.OpenPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.Peers;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.reader.FineReader;
import org.padtrue.imaging.registration.Evidence;
import org.padtrue.imaging.registration.Features;
import org.padtrue.imaging.registration.MapSearch;
import org.padtrue.imaging.registration.PartsRegistration;
import org.padtrue.imaging.registration.PartsTilt;
import org.padtrue.imaging.registration.Registration;
import org.padtrue.imaging.registration.RoomCheck;
import org.padtrue.imaging.registration.SlantSearch;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;

/** Measures the placements of a job in overview pictures. The entry to this package. */
public final class PictureDetection {
  /** Hears how far the work is. */
  @FunctionalInterface
  public interface Progress {
    /** Called after each placement: done of all. */
    void at(int done, int all);

    /** Called as a stage begins that cannot say how far it is, such as "looking for fiducials". */
    default void looking(String what) {}
  }

  /** What a lens of a cheap camera bends of the distance between fiducials, as a share. */
  private static final double LENS_BENDS = 0.0015;

  /** Below this share of parts where the job has them the picture shows something else. */
  private static final double OTHER_BOARD = 0.2;

  /** A picture no blunter than this was drawn or sharpened, px. */
  private static final double TOO_SHARP_PX = 0.52;

  /** Edges drawn to whole pixels are off by up to half of one: that spread, px. */
  private static final double WHOLE_PIXEL = 0.29;

  /** Blur given to such a picture, px. */
  private static final double SOFT_PX = 0.6;

  /**
   * Bend of a device that nobody has measured: error at a distance r from the middle of a scanner
   * or camera, per r^2, 1/mm. Common practice: some tenths of a millimetre over a hand-sized panel.
   */
  private static final double UNKNOWN_BEND_PER_MM = 3e-5;

  /** Scales of one setting differ by no more than this share: the panel's thickness, the bend. */
  private static final double SAME_SETTING = 0.02;

  /** Nearest sensible camera, panel diagonals: the panel fills a view of about 50 degrees. */
  private static final double NEAREST_CAMERA = 1.1;

  private final Job job;
  private final DetectionOptions options;
  private final Progress progress;
  private final List<Sites.Site> sites;
  private final List<KnownMark> marks;
  private final TaughtLooks looks;

  /** Those that are known by their outlines: by these a picture is laid onto the panel. */
  private final List<Sites.Site> outlined;

  private PictureDetection(Job job, DetectionOptions options, Progress progress) {
    this.job = job;
    this.options = options;
    this.progress = progress;
    this.sites = Sites.of(job);
    this.marks = KnownMark.of(job);
    this.looks = new TaughtLooks(sites, options);
    this.outlined = sites.stream().filter(s -> !looks.covers(s.type())).toList();
  }

  /**
   * Measures.
   *
   * @param pictures overview pictures: of one panel (turned ones separate the device's bend), or
   *     one of each panel, see {@link DetectionOptions#panelPerPicture}
   * @throws InputException when a picture cannot be read or laid onto the panel, one sentence each
   */
  public static DetectionResult overview(
      Job job, List<Path> pictures, DetectionOptions options, Progress progress) {
    try (OpenPicture open = new OpenPicture()) {
      return overview(job, pictures, options, progress, open);
    }
  }

  /**
   * The same, with the last picture left open for who draws on it.
   *
   * @param open closed by the caller
   */
  public static DetectionResult overview(
      Job job, List<Path> pictures, DetectionOptions options, Progress progress, OpenPicture open) {
    if (pictures.isEmpty()) {
      throw new IllegalArgumentException("no picture given");
    }
    return new PictureDetection(job, options, progress).run(pictures, open);
  }

  /** One picture with what was read in it. */
  private record Shot(
      String name,
      int width,
      int height,
      Registration.Registered reg,
      List<PlacementReading> read) {}

  private DetectionResult run(List<Path> pictures, OpenPicture open) {
    if (sites.stream().noneMatch(s -> Outline.known(s.type()) || looks.covers(s.type()))) {
      throw new InputException(
          Problem.of(
              job.name(),
              "no placement has a part type with body or terminations",
              "describe the part types in a parts file"));
    }
    List<Problem> problems = new ArrayList<>();
    List<Shot> shots = new ArrayList<>();
    for (int i = 0; i < pictures.size(); i++) {
      try {
        shots.add(shot(open.read(pictures.get(i)), i, pictures.size()));
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return result(shots);
  }

  /** Measures one decoded picture; for tests and callers that hold the picture already. */
  public static DetectionResult single(Job job, Picture picture, DetectionOptions options) {
    PictureDetection d = new PictureDetection(job, options, (a, b) -> {});
    return d.result(List.of(d.shot(picture, 0, 1)));
  }

  /** Measures several decoded pictures. */
  static DetectionResult several(Job job, List<Picture> pictures, DetectionOptions options) {
    PictureDetection d = new PictureDetection(job, options, (a, b) -> {});
    List<Shot> shots = new ArrayList<>();
    for (int i = 0; i < pictures.size(); i++) {
      shots.add(d.shot(pictures.get(i), i, pictures.size()));
    }
    return d.result(shots);
  }

  // --- one picture -------------------------------------------------------------------------

  private Shot shot(Picture p, int index, int all) {
    checkCamera(p);
    RoomCheck.check(p.name(), p.width(), p.height(), sites);
    Registration.Registered reg = register(p);
    Registration.refuseOblique(p.name(), reg.report().tiltDeg());
    checkDevice(p.name(), reg.report().pxPerMm());
    PanelToPicture map = withDistance(p, reg.map());
    double sigma = blur(p, map, reg.report().pxPerMm());
    boolean sharp = sigma <= TOO_SHARP_PX;
    if (!sharp || FineReader.enlargesAll(reg.report().pxPerMm())) {
      return measured(p, reg, map, sigma, sharp, index, all);
    }
    // Edges that jump from pixel to pixel say less of where they are, and the model fits them ill.
    try (Picture soft = p.softened(SOFT_PX)) {
      return measured(soft, reg, map, Math.hypot(sigma, SOFT_PX), true, index, all);
    }
  }

  private Shot measured(
      Picture p,
      Registration.Registered reg,
      PanelToPicture map,
      double sigma,
      boolean sharp,
      int index,
      int all) {
    looks.learnFrom(p, map);
    FineReader reader = new FineReader(p, map, reg.report().pxPerMm());
    AtomicInteger done = new AtomicInteger();
    String panel = options.panelPerPicture() ? "P" + (index + 1) : "P1";
    List<PlacementReading> read =
        sites.parallelStream()
            .map(
                s -> {
                  PlacementReading r = reading(reader, map, reg, s, panel, index, sigma, sharp);
                  int n = done.incrementAndGet();
                  progress.at(index * sites.size() + n, all * sites.size());
                  return r;
                })
            .toList();
    refuseOtherBoard(p.name(), read);
    PartsTilt.refuse(p.name(), reg, read, options.camera());
    return new Shot(p.name(), p.width(), p.height(), reg, Peers.judge(read));
  }

  private void checkCamera(Picture p) {
    CameraModel c = options.camera();
    if (c != null && (c.width() != p.width() || c.height() != p.height())) {
      throw new InputException(
          Problem.of(
              p.name(),
              "the picture is "
                  + p.width()
                  + " x "
                  + p.height()
                  + " px but the camera was calibrated at "
                  + c.width()
                  + " x "
                  + c.height(),
              "take both with the same setting, uncropped"));
    }
  }

  /** A bend belongs to one setting: in a picture of another scale it would lie elsewhere. */
  private void checkDevice(String name, double pxPerMm) {
    DeviceBend d = options.device();
    if (d != null && Math.abs(pxPerMm / d.pxPerMm() - 1) > SAME_SETTING) {
      throw new InputException(
          Problem.of(
              name,
              String.format(
                  Locale.ROOT,
                  "the picture has %.2f px/mm but the device was measured at %.2f",
                  pxPerMm,
                  d.pxPerMm()),
              "take both with the same setting"));
    }
  }

  private Registration.Registered register(Picture p) {
    Features features = Features.of(p);
    Registration registration = new Registration(features, marks, outlined, options.camera());
    progress.looking("looking for the fiducials");
    Registration.Registered reg = registration.onFiducials();
    if (reg != null && plausible(features, reg)) {
      return reg;
    }
    Registration.Registered slanted = registration.oblique();
    if (slanted != null && slanted.report().tiltDeg() > Registration.MAX_TILT_DEG) {
      // Glare beside a fiducial looks like one that foreshortening moved: parts know better.
      progress.looking("looking for the parts");
      Registration.Registered square = onParts(features);
      if (square != null && seenOn(p, square) > seenOn(p, slanted)) {
        return square;
      }
      Registration.refuseOblique(p.name(), slanted.report().tiltDeg());
    }
    progress.looking("looking whether the picture was taken from the side");
    SlantSearch slant = new SlantSearch(features, outlined);
    slant.degrees().ifPresent(tilt -> Registration.refuseOblique(p.name(), tilt));
    progress.looking("looking for the parts");
    Registration.Registered other = onParts(features);
    if (other != null) {
      return other;
    }
    if (reg != null && wellFixed(reg.report())) {
      return reg;
    }
    throw new InputException(
        Problem.of(
            p.name(),
            "neither two fiducials nor the parts of job '"
                + job.name()
                + "' were found"
                + slanting(slant.linesDeg()),
            "check that the picture shows this panel, this side, from above"));
  }

  private double seenOn(Picture p, Registration.Registered reg) {
    return new Evidence(outlined, 60).of(p, reg.map());
  }

  private static String slanting(double tiltDeg) {
    return tiltDeg > Registration.MAX_TILT_DEG
        ? String.format(
            Locale.ROOT, ", and its lines run as if taken %.0f degrees off the vertical", tiltDeg)
        : "";
  }

  /** By the parts, as the picture is, then as seen from below. */
  private Registration.@Nullable Registered onParts(Features features) {
    PartsRegistration upright =
        new PartsRegistration(features, marks, outlined, Sites.bare(job), options.camera());
    Registration.Registered as = upright.find();
    if (options.camera() != null || as != null && upright.firm(as)) {
      return as;
    }
    try (Picture flipped = features.picture().mirrored()) {
      Registration.Registered r =
          new PartsRegistration(features.mirrored(flipped), marks, outlined, Sites.bare(job), null)
              .find();
      if (r == null || as != null && as.pairs().size() >= r.pairs().size()) {
        return as;
      }
      return r.mirrored(flipped.width());
    }
  }

  /** Two spots always fit two fiducials: the parts must stand where the map has them. */
  private boolean plausible(Features features, Registration.Registered reg) {
    Picture p = features.picture();
    if (reg.report().tiltDeg() > Registration.MAX_TILT_DEG) {
      return seenOn(p, reg) > 0.25;
    }
    // Three fiducials and more that agree, and parts of the right look where they should be.
    if (agree(reg.report()) && new Evidence(outlined, 150).of(p, reg.map()) > MapSearch.CLEAR) {
      return true;
    }
    return new Registration(features, marks, outlined, options.camera()).partScore(reg.map()) > 0.3;
  }

  /** Fiducials that agree among themselves hold a map even where parts are missing. */
  private boolean wellFixed(MapReport r) {
    return agree(r) && !r.mirrored() && r.tiltDeg() < 3;
  }

  /** Three fiducials that agree closely, or four and more, all there, as far as lenses let them. */
  private boolean agree(MapReport r) {
    boolean all = r.marks().size() >= 4 && r.marks().stream().allMatch(MarkReport::used);
    double[] b = Sites.bounds(List.of(), marks);
    double lens = all ? LENS_BENDS * Math.hypot(b[2] - b[0], b[3] - b[1]) : 0;
    return r.redundancy() >= 2 && r.residualMm() < Math.max(0.05, lens);
  }

  private PanelToPicture withDistance(Picture p, PanelToPicture map) {
    if (!Double.isFinite(options.cameraDistanceMm())) {
      return map;
    }
    double[] foot = foot(p, map);
    return map.from(foot[0], foot[1], options.cameraDistanceMm());
  }

  /** Panel point below the camera: the principal point, or the picture's middle. */
  private double[] foot(Picture p, PanelToPicture map) {
    CameraModel c = options.camera();
    return c != null
        ? map.toPanel(c.cxPx(), c.cyPx())
        : map.toPanel((p.width() - 1) / 2.0, (p.height() - 1) / 2.0);
  }

  /** Blur of the picture, from a few parts. */
  private double blur(Picture p, PanelToPicture map, double pxPerMm) {
    FineReader reader = new FineReader(p, map, pxPerMm);
    double[] s =
        Sites.sample(sites, 8).stream()
            .map(x -> reader.glance(x.type(), x.nominal(), 1))
            .filter(x -> x.score() > 0.6)
            .mapToDouble(PartPose::sigmaPx)
            .sorted()
            .toArray();
    return s.length == 0 ? 1 : Math.max(0.5, Math.min(3, s[s.length / 2]));
  }

  private PlacementReading reading(
      FineReader reader,
      PanelToPicture map,
      Registration.Registered reg,
      Sites.Site s,
      String panel,
      int index,
      double sigma,
      boolean sharp) {
    PartPose p = reader.read(s.type(), looks.of(s.type()), s.nominal(), sigma);
    Pose q = p.pose();
    double height = s.type().kind() == JointKind.GULL_WING ? 0.15 : heightOf(s);
    double x = q == null ? s.nominal().xMm() : q.xMm();
    double y = q == null ? s.nominal().yMm() : q.yMm();
    double[] px = map.at(x, y, height);
    double u = p.uMm();
    double uDeg = p.uRotationDeg();
    if (q != null) {
      u =
          Math.sqrt(
              u * u
                  + Math.pow(reg.uMm(x, y), 2)
                  + Math.pow(parallax(reg, x, y, height), 2)
                  + Math.pow(unknownBend(reg, x, y), 2)
                  + Math.pow(hiddenPerspective(reg, x, y), 2)
                  + Math.pow(sharp ? WHOLE_PIXEL / map.scaleAt(x, y) : 0, 2));
      uDeg = Math.hypot(uDeg, mapTurn(reg));
    }
    return new PlacementReading(
        panel,
        s.board(),
        s.placement(),
        s.nominal(),
        p.status(),
        q,
        u,
        uDeg,
        p.score(),
        p.status() == ReadingStatus.OUT_OF_PICTURE ? -1 : index,
        px[0],
        px[1],
        p.note());
  }

  private static double heightOf(Sites.Site s) {
    return Outline.known(s.type()) ? Outline.bodyHeight(s.type()) : 0;
  }

  /** Parts stand up; where the camera is not known to be far away, their tops may lean outwards. */
  private double parallax(Registration.Registered reg, double x, double y, double height) {
    double tilt = height * Math.sin(Math.toRadians(reg.report().tiltDeg()));
    if (!Double.isNaN(options.cameraDistanceMm())) {
      return tilt / Math.sqrt(3);
    }
    double[] b = Sites.bounds(sites, marks);
    double diagonal = Math.max(20, Math.hypot(b[2] - b[0], b[3] - b[1]));
    double r = Math.hypot(x - (b[0] + b[2]) / 2, y - (b[1] + b[3]) / 2);
    return Math.hypot(r * height / (NEAREST_CAMERA * diagonal), tilt) / Math.sqrt(3);
  }

  /**
   * Three fiducials show of a tilted view that one direction is shortened, not that what lies near
   * the camera looks larger: over a distance d a tilt t moves points at a distance r from the
   * middle by r^2 sin t / d, of which the three hold their own. Nothing for a view from far away.
   */
  private double hiddenPerspective(Registration.Registered reg, double x, double y) {
    MapReport r = reg.report();
    if (r.family() != MapFamily.AFFINE
        || r.registeredOn() != RegisteredOn.FIDUCIALS
        || r.redundancy() > 0) {
      return 0;
    }
    double[] b = Sites.bounds(sites, marks);
    double distance =
        Double.isNaN(options.cameraDistanceMm())
            ? NEAREST_CAMERA * Math.max(20, Math.hypot(b[2] - b[0], b[3] - b[1]))
            : options.cameraDistanceMm();
    double[] q = squares(reg, x, y);
    return Math.max(q[0], q[1]) * Math.sin(Math.toRadians(r.tiltDeg())) / distance / Math.sqrt(3);
  }

  /** Squared distance from the middle of the fiducials, here and of the fiducials, mm^2. */
  private static double[] squares(Registration.Registered reg, double x, double y) {
    double cx = reg.pairs().stream().mapToDouble(MapFit.Pair::xMm).average().orElse(x);
    double cy = reg.pairs().stream().mapToDouble(MapFit.Pair::yMm).average().orElse(y);
    double held =
        reg.pairs().stream()
            .mapToDouble(p -> Math.pow(p.xMm() - cx, 2) + Math.pow(p.yMm() - cy, 2))
            .average()
            .orElse(0);
    return new double[] {Math.pow(x - cx, 2) + Math.pow(y - cy, 2), held};
  }

  /** What a scanner or camera that was never checked may bend, beyond what the fiducials hold. */
  private double unknownBend(Registration.Registered reg, double x, double y) {
    if (options.straight() || options.camera() != null || options.device() != null) {
      return 0;
    }
    double[] q = squares(reg, x, y);
    return UNKNOWN_BEND_PER_MM * Math.abs(q[0] - q[1]) / Math.sqrt(3);
  }

  private double mapTurn(Registration.Registered reg) {
    double[] b = Sites.bounds(sites, marks);
    double half = Math.max(5, Math.hypot(b[2] - b[0], b[3] - b[1]) / 2);
    return Math.toDegrees(reg.uMm(b[0], b[1]) / half);
  }

  private static void refuseOtherBoard(String name, List<PlacementReading> read) {
    long seen =
        read.stream().filter(r -> r.belongs() || r.status() == ReadingStatus.DOUBTFUL).count();
    long here = read.stream().filter(PlacementReading::lookedFor).count();
    if (here >= 4 && seen < OTHER_BOARD * here) {
      throw new InputException(
          Problem.of(
              name,
              "only " + seen + " of " + here + " parts are where the job has them",
              "check that the picture shows this panel, this side and this revision"));
    }
  }

  // --- joining -----------------------------------------------------------------------------

  private DetectionResult result(List<Shot> shots) {
    looks.done();
    List<Shot> used = shots;
    Optional<ReversalResult> reversal = Optional.empty();
    DeviceBend bend = options.device();
    if (!options.panelPerPicture() && turned(shots)) {
      ReversalResult r = reverse(shots);
      reversal = Optional.of(r);
      bend = r.bend() != null ? r.bend() : bend;
    }
    if (bend != null) {
      DeviceBend b = bend;
      used = shots.stream().map(s -> straightened(s, b)).toList();
    }
    List<PlacementReading> all = new ArrayList<>();
    if (options.panelPerPicture()) {
      used.forEach(s -> all.addAll(s.read));
    } else {
      for (int i = 0; i < sites.size(); i++) {
        int k = i;
        all.add(joined(used.stream().map(s -> s.read.get(k)).toList()));
      }
    }
    List<String> notes = new ArrayList<>();
    used.forEach(s -> notes.addAll(s.reg.report().notes()));
    reversal.ifPresent(r -> notes.addAll(r.notes()));
    looks.used().forEach(t -> notes.add(t.caution()));
    if (Double.isNaN(options.cameraDistanceMm())) {
      notes.add("the camera's distance is not known: parallax of tall parts is in the uncertainty");
    }
    if (!options.straight() && options.camera() == null && bend == null) {
      notes.add(
          "the device was never checked: what it may bend beyond what holds the map is in the"
              + " uncertainty");
    }
    return new DetectionResult(
        all, used.stream().map(s -> s.reg.report()).toList(), reversal, notes, looks.used());
  }

  private static boolean turned(List<Shot> shots) {
    for (Shot s : shots) {
      double d =
          Angles.wrap(s.reg.report().rotationDeg() - shots.get(0).reg.report().rotationDeg());
      if (Math.abs(d) > 45) {
        return true;
      }
    }
    return false;
  }

  /** Reading in the device's own frame, mm: x right, y up, origin in the picture's middle. */
  private static double[] inDevice(Shot s, double xPx, double yPx, double pxPerMm) {
    return new double[] {
      (xPx - (s.width - 1) / 2.0) / pxPerMm, ((s.height - 1) / 2.0 - yPx) / pxPerMm
    };
  }

  private ReversalResult reverse(List<Shot> shots) {
    double scale = shots.get(0).reg.report().pxPerMm();
    Map<String, double[]> nominal = new HashMap<>();
    List<Reversal.View> views = new ArrayList<>();
    for (Shot s : shots) {
      Map<String, double[]> points = new HashMap<>();
      for (PlacementReading r : s.read) {
        if (r.status() == ReadingStatus.FOUND) {
          double[] d = inDevice(s, r.xPx(), r.yPx(), scale);
          points.put(r.id(), new double[] {d[0], d[1], Math.hypot(0.004, fitU(s, r))});
          nominal.put(r.id(), new double[] {r.nominal().xMm(), r.nominal().yMm()});
        }
      }
      for (MarkReport m : s.reg.report().marks()) {
        if (m.used()) {
          double[] q = s.reg.map().at(m.xMm(), m.yMm());
          double[] d = inDevice(s, q[0], q[1], scale);
          points.put("mark " + m.name(), new double[] {d[0], d[1], Math.hypot(0.002, m.uMm())});
          nominal.put("mark " + m.name(), new double[] {m.xMm(), m.yMm()});
        }
      }
      views.add(new Reversal.View(s.reg.report().rotationDeg(), points));
    }
    return Reversal.solve(views, nominal, scale);
  }

  /** The part of a reading's uncertainty that is its own. */
  private double fitU(Shot s, PlacementReading r) {
    Pose p = java.util.Objects.requireNonNull(r.pose());
    double common =
        Math.pow(s.reg.uMm(p.xMm(), p.yMm()), 2)
            + Math.pow(unknownBend(s.reg, p.xMm(), p.yMm()), 2);
    return Math.sqrt(Math.max(1e-6, r.uMm() * r.uMm() - common));
  }

  /** Takes the device's bend out of every reading and lays the picture onto the panel anew. */
  private Shot straightened(Shot s, DeviceBend bend) {
    double k = bend.pxPerMm();
    List<MapFit.Pair> pairs = new ArrayList<>();
    for (MapFit.Pair p : s.reg.pairs()) {
      double[] q = straight(s, p.xPx(), p.yPx(), bend, k);
      pairs.add(new MapFit.Pair(p.xMm(), p.yMm(), q[0], q[1], p.uPx()));
    }
    MapFit old = s.reg.fit();
    if (old == null) {
      return s;
    }
    MapFit fit = Registration.choose(pairs, old.mirrored, Math.hypot(0.05, 0.005 * k));
    if (fit == null) {
      return s;
    }
    PanelToPicture map = new PanelToPicture(fit.h, null);
    Registration.Registered reg =
        new Registration.Registered(map, fit, pairs, s.reg.report(), s.reg.sigmaPx());
    List<PlacementReading> read = new ArrayList<>();
    for (PlacementReading r : s.read) {
      Pose p = r.pose();
      if (p == null) {
        read.add(r);
        continue;
      }
      double[] before = s.reg.map().at(p.xMm(), p.yMm());
      double[] q = straight(s, before[0], before[1], bend, k);
      double[] at = map.toPanel(q[0], q[1]);
      double[] along = s.reg.map().at(p.xMm() + 1, p.yMm());
      double[] q2 = straight(s, along[0], along[1], bend, k);
      double[] at2 = map.toPanel(q2[0], q2[1]);
      double turn = Math.toDegrees(Math.atan2(at2[1] - at[1], at2[0] - at[0]));
      double u = Math.hypot(fitU(s, r), reg.uMm(at[0], at[1]));
      read.add(r.at(new Pose(at[0], at[1], Angles.wrap(p.rotationDeg() + turn)), u));
    }
    return new Shot(s.name, s.width, s.height, reg, read);
  }

  private static double[] straight(Shot s, double x, double y, DeviceBend bend, double k) {
    double[] d = inDevice(s, x, y, k);
    double[] c = bend.corrected(d[0], d[1]);
    return new double[] {c[0] * k + (s.width - 1) / 2.0, (s.height - 1) / 2.0 - c[1] * k};
  }

  /** One reading from several pictures of one panel: the weighted mean of those that found it. */
  private static PlacementReading joined(List<PlacementReading> same) {
    List<PlacementReading> found =
        same.stream().filter(r -> r.status() == ReadingStatus.FOUND).toList();
    if (found.size() < 2) {
      return found.isEmpty() ? telling(same) : found.get(0);
    }
    double w = 0;
    double x = 0;
    double y = 0;
    double turn = 0;
    double uDeg = 0;
    PlacementReading first = found.get(0);
    Pose p0 = java.util.Objects.requireNonNull(first.pose());
    double[] us = new double[found.size()];
    for (int i = 0; i < us.length; i++) {
      PlacementReading r = found.get(i);
      Pose p = java.util.Objects.requireNonNull(r.pose());
      double v = 1 / (r.uMm() * r.uMm());
      w += v;
      x += v * p.xMm();
      y += v * p.yMm();
      turn += v * Angles.wrap(p.rotationDeg() - p0.rotationDeg());
      uDeg += r.uRotationDeg() * r.uRotationDeg();
      us[i] = r.uMm();
    }
    Arrays.sort(us);
    Pose mean = new Pose(x / w, y / w, Angles.wrap(p0.rotationDeg() + turn / w));
    // Maps and light are partly common to the pictures: half the variance averages out.
    double u = us[0] * Math.sqrt(0.5 + 0.5 / found.size());
    double ud = Math.sqrt(uDeg) / found.size() * Math.sqrt(0.5 * found.size() + 0.5);
    return new PlacementReading(
        first.panel(),
        first.board(),
        first.placement(),
        first.nominal(),
        ReadingStatus.FOUND,
        mean,
        u,
        ud,
        first.score(),
        first.picture(),
        first.xPx(),
        first.yPx(),
        first.note());
  }

  /** Of readings that found nothing the one that says most. */
  private static PlacementReading telling(List<PlacementReading> same) {
    Map<ReadingStatus, PlacementReading> by = new LinkedHashMap<>();
    same.forEach(r -> by.putIfAbsent(r.status(), r));
    for (ReadingStatus s :
        List.of(
            ReadingStatus.DOUBTFUL,
            ReadingStatus.MISSING,
            ReadingStatus.NOT_FOUND,
            ReadingStatus.OUT_OF_PICTURE)) {
      @Nullable PlacementReading r = by.get(s);
      if (r != null) {
        return r;
      }
    }
    return same.get(0);
  }
}
