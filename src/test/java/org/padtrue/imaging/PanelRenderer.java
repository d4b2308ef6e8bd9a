package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.panel.Board;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Stage;

/**
 * Draws a populated panel as a camera would see it, with every pose known. Geometry is projected
 * point by point through the camera (homography, lens, height) and drawn by exact areas, on a
 * raster finer than the picture's; then come blur, pixels, light fall-off, noise and, if wanted,
 * JPEG. Same seed, same picture.
 */
public final class PanelRenderer {
  /** A picture and the truth about it. */
  public record Rendered(byte[] png, Picture picture, PanelToPicture truth) {}

  /** Added to an id: the pose of a moulded body that does not sit on its leads as drawn. */
  static final String BODY = "#body";

  private final Job job;
  private final RenderSettings s;
  private final PanelToPicture truth;

  /** Of the picture, px. */
  private final int width;

  private final int height;

  /** Drawn on a finer raster, so many to a pixel: optics blur before pixels gather light. */
  private final int fine;

  private final int columns;
  private final int rows;
  private final float[][] image;

  private PanelRenderer(Job job, RenderSettings s) {
    this.job = job;
    this.s = s;
    double[] b = bounds(job, s.marginMm());
    double w = b[2] - b[0];
    double h = b[3] - b[1];
    double c = Math.abs(Math.cos(Math.toRadians(s.turnDeg())));
    double n = Math.abs(Math.sin(Math.toRadians(s.turnDeg())));
    this.width = (int) Math.ceil((w * c + h * n) * s.pxPerMm());
    this.height = (int) Math.ceil((w * n + h * c) * s.pxPerMm());
    this.truth = camera((b[0] + b[2]) / 2, (b[1] + b[3]) / 2);
    this.fine = s.fine();
    this.columns = width * fine;
    this.rows = height * fine;
    this.image = new float[3][columns * rows];
  }

  /**
   * Renders.
   *
   * @param poses true pose in the panel frame by column/row/ref; a placement that is not in it is
   *     missing: its lands stay bare
   */
  public static Rendered render(Job job, Map<String, Pose> poses, RenderSettings s) {
    NativeLibraries.load();
    PanelRenderer r = new PanelRenderer(job, s);
    r.board();
    r.lands(poses);
    r.parts(poses);
    return r.develop();
  }

  /**
   * What falls on the sensor, before its noise: blue, green, red planes in grey levels, row by row.
   */
  static float[][] light(Job job, Map<String, Pose> poses, RenderSettings s) {
    NativeLibraries.load();
    PanelRenderer r = new PanelRenderer(job, s);
    r.board();
    r.lands(poses);
    r.parts(poses);
    return r.throughOptics();
  }

  /** The true map of a picture of a job. */
  public static PanelToPicture truth(Job job, RenderSettings s) {
    return new PanelRenderer(job, s).truth;
  }

  /** Standard deviation of a sensor's pixel in light v, without rounding. */
  static double noiseSd(RenderSettings s, double v) {
    // Photon noise grows with the root of the light, read noise does not.
    return s.noise() * Math.sqrt(0.3 + 0.7 * Math.max(0, v) / 128);
  }

  static double[] bounds(Job job, double margin) {
    double[] b = {1e9, 1e9, -1e9, -1e9};
    for (Board board : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose q = p.pose().seenFrom(board.origin());
        grow(b, q.xMm(), q.yMm());
      }
    }
    for (Fiducial f : job.fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        grow(b, f.xMm(), f.yMm());
      }
    }
    return new double[] {b[0] - margin, b[1] - margin, b[2] + margin, b[3] + margin};
  }

  private static void grow(double[] b, double x, double y) {
    b[0] = Math.min(b[0], x);
    b[1] = Math.min(b[1], y);
    b[2] = Math.max(b[2], x);
    b[3] = Math.max(b[3], y);
  }

  private PanelToPicture camera(double cx, double cy) {
    double a = Math.toRadians(s.turnDeg());
    double k = s.pxPerMm();
    double sx = s.mirrored() ? -1 : 1;
    double px = (width - 1) / 2.0;
    double py = (height - 1) / 2.0;
    double[] place = {1, 0, -cx, 0, 1, -cy, 0, 0, 1};
    double[] turn = {Math.cos(a), -Math.sin(a), 0, Math.sin(a), Math.cos(a), 0, 0, 0, 1};
    double t = Math.toRadians(s.tiltDeg());
    double d = Double.isFinite(s.cameraDistanceMm()) ? s.cameraDistanceMm() : 1e7;
    // Turning the board about the vertical picture axis, seen in perspective from distance d.
    double[] tilt = {Math.cos(t), 0, 0, 0, 1, 0, Math.sin(t) / d, 0, 1};
    double[] pixels = {sx * k, 0, px, 0, -k, py, 0, 0, 1};
    double e = s.scaleDifference();
    double q = s.squareness();
    double[] axes = {1 + e, q, 0, q, 1 - e, 0, 0, 0, 1};
    double[] seen = Matrices.product3(tilt, Matrices.product3(turn, place));
    double[] h = Matrices.product3(pixels, Matrices.product3(axes, seen));
    return new PanelToPicture(h, s.lens()).from(cx, cy, s.cameraDistanceMm());
  }

  // --- drawing -----------------------------------------------------------------------------

  private void board() {
    Surface mask = Surface.cloudy(s.mask(), 0.06 * s.texture(), s.pxPerMm() * 0.6, s.seed());
    double[] c = new double[3];
    for (int y = 0; y < rows; y++) {
      for (int x = 0; x < columns; x++) {
        mask.colour(picture(x), picture(y), c);
        for (int k = 0; k < 3; k++) {
          image[k][y * columns + x] = (float) c[k];
        }
      }
    }
    if (s.texture() > 0) {
      tracks();
    }
    for (Board b : job.array().boards()) {
      for (Fiducial f : job.fiducials()) {
        if (f.scope() == Fiducial.Scope.BOARD) {
          Pose q = new Pose(f.xMm(), f.yMm(), 0).seenFrom(b.origin());
          fiducial(q.xMm(), q.yMm(), f.diameterMm());
        }
      }
    }
    for (Fiducial f : job.fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        fiducial(f.xMm(), f.yMm(), f.diameterMm());
      }
    }
  }

  /** Copper below the mask shows as slightly lighter tracks; vias as small rings. */
  private void tracks() {
    Random r = new Random(s.seed() * 31 + 7);
    double[] b = bounds(job, 0);
    int[] lighter = {s.mask()[0] + 14, s.mask()[1] + 18, s.mask()[2] + 12};
    int n = (int) ((b[2] - b[0]) * (b[3] - b[1]) / 12) + 1;
    for (int i = 0; i < n; i++) {
      double x = b[0] + r.nextDouble() * (b[2] - b[0]);
      double y = b[1] + r.nextDouble() * (b[3] - b[1]);
      boolean along = r.nextBoolean();
      double len = 1 + 5 * r.nextDouble();
      Rect t = new Rect(0, 0, along ? len : 0.15, along ? 0.15 : len);
      fill(polygon(new Pose(x, y, 0), t, 0), Surface.cloudy(lighter, 0, 1, 0), 1);
      if (r.nextInt(4) == 0) {
        Surface via = Surface.cloudy(new int[] {90, 140, 150}, 0, 1, 0);
        fill(circle(x, y, 0.25), via, 1);
        fill(circle(x, y, 0.12), Surface.cloudy(new int[] {20, 20, 20}, 0, 1, 0), 1);
      }
    }
  }

  private void fiducial(double x, double y, double diameter) {
    double d = Double.isNaN(diameter) ? 1 : diameter;
    int[] laminate = {70, 100, 95};
    fill(circle(x, y, d), Surface.cloudy(laminate, 0.05 * s.texture(), 4, 5), 1);
    double[] p = truth.at(x, y);
    double w = d * s.pxPerMm();
    Surface copper =
        Surface.metal(new int[] {120, 175, 205}, 0.12 * s.texture(), p[0] + w / 6, p[1], w / 3, 9);
    if (s.marks() == MarkShape.ROUND) {
      fill(circle(x, y, d / 2), copper, 1);
    } else {
      s.marks().copper(d).forEach(r -> fill(polygon(new Pose(x, y, 0), r, 0), copper, 1));
    }
  }

  private void land(Pose nominal, Rect land, String ref) {
    double[] q = truth.at(nominal.xMm(), nominal.yMm());
    Surface tin =
        Surface.metal(new int[] {165, 185, 190}, 0.08 * s.texture(), q[0], q[1], 9, ref.hashCode());
    fill(polygon(nominal, land, 0), tin, 1);
  }

  private void lands(Map<String, Pose> poses) {
    for (Sites.Site site : Sites.bare(job)) {
      site.type().lands().forEach(land -> land(site.nominal(), land, site.placement().ref()));
    }
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        PartType t = job.partType(p.part());
        Pose nominal = p.pose().seenFrom(b.origin());
        boolean bare = !poses.containsKey(b.index() + "/" + p.ref());
        for (Rect land : t.lands()) {
          if (s.texture() == 0 && !bare) {
            continue;
          }
          land(nominal, land, p.ref());
          if (s.stage() == Stage.PASTE) {
            Rect paste =
                new Rect(land.xMm(), land.yMm(), land.lengthMm() * 0.92, land.widthMm() * 0.92);
            Surface grey = Surface.cloudy(new int[] {120, 122, 120}, 0.12 * s.texture(), 1.5, 3);
            fill(polygon(nominal, paste, 0), grey, 1);
          }
        }
        if (s.texture() > 0) {
          silk(t, nominal);
        }
      }
    }
  }

  /** Two white lines along the part and a dot: enough to lead an edge finder astray. */
  private void silk(PartType t, Pose nominal) {
    if (t.body() == null) {
      return;
    }
    Outline o = Outline.of(t);
    double y = o.halfWidthMm() + 0.25;
    double l = Math.max(0.3, o.halfLengthMm());
    Surface white = Surface.cloudy(new int[] {225, 228, 226}, 0.04, 2, 11);
    for (int sign = -1; sign <= 1; sign += 2) {
      fill(polygon(nominal, new Rect(0, sign * y, l, 0.12), 0), white, 1);
    }
  }

  private void parts(Map<String, Pose> poses) {
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose q = poses.get(b.index() + "/" + p.ref());
        PartType t = job.partType(p.part());
        if (q != null && (Outline.known(t) || OddShapes.has(t))) {
          shadow(t, q);
        }
      }
    }
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose q = poses.get(b.index() + "/" + p.ref());
        PartType t = job.partType(p.part());
        if (q != null && (Outline.known(t) || OddShapes.has(t))) {
          Pose body = poses.getOrDefault(b.index() + "/" + p.ref() + BODY, q);
          part(p.ref(), t, q, body);
        }
      }
    }
  }

  private void shadow(PartType t, Pose q) {
    if (s.shadow() == 0) {
      return;
    }
    double h = 0.7 * Outline.bodyHeight(t);
    if (OddShapes.has(t)) {
      double to = Math.toRadians(s.light() + 180);
      double x = q.xMm() + h * Math.cos(to) * 0.6;
      double y = q.yMm() + h * Math.sin(to) * 0.6;
      Surface dark = Surface.cloudy(new int[] {6, 6, 6}, 0, 1, 0);
      fill(polygon(new Pose(x, y, q.rotationDeg()), OddShapes.body(t), 0), dark, s.shadow());
      return;
    }
    double a = Math.toRadians(s.light() + 180);
    Rect r = t.body() != null ? t.body() : t.terminations().get(0);
    Pose moved =
        new Pose(q.xMm() + h * Math.cos(a) * 0.6, q.yMm() + h * Math.sin(a) * 0.6, q.rotationDeg());
    for (int i = 1; i <= 3; i++) {
      double grow = 0.06 * i;
      Rect g = new Rect(r.xMm(), r.yMm(), r.lengthMm() + grow, r.widthMm() + grow);
      Surface black = Surface.cloudy(new int[] {6, 6, 6}, 0, 1, 0);
      fill(polygon(moved, g, 0), black, s.shadow() / 3);
    }
  }

  private void odd(PartType t, Pose q, long seed) {
    double h = Outline.bodyHeight(t);
    double[] at = truth.at(q.xMm(), q.yMm(), h);
    fill(polygon(q, OddShapes.body(t), h), body(t, seed), 1);
    Surface tin =
        Surface.metal(
            new int[] {196, 202, 205}, 0.22 * s.texture(), at[0], at[1], 0.4 * s.pxPerMm(), seed);
    for (Rect r : OddShapes.metal(t)) {
      fill(polygon(q, r, h), tin, 1);
    }
    marking(t, q, h, seed);
  }

  private void part(String ref, PartType t, Pose q, Pose onLeads) {
    if (OddShapes.has(t)) {
      odd(t, q, s.seed() ^ ref.hashCode());
      return;
    }
    long seed = s.seed() ^ ref.hashCode();
    double h = Outline.bodyHeight(t);
    boolean leads = t.kind() == JointKind.GULL_WING || t.kind() == JointKind.J_LEAD;
    boolean below = t.kind() == JointKind.BALL || t.kind() == JointKind.NO_LEAD;
    double[] at = truth.at(q.xMm(), q.yMm(), h);
    Surface tin =
        Surface.metal(
            new int[] {196, 202, 205}, 0.22 * s.texture(), at[0], at[1], 0.4 * s.pxPerMm(), seed);
    if (leads) {
      // Feet first, the body's box over them.
      List<double[][]> feet = new ArrayList<>();
      for (Rect r : t.terminations()) {
        feet.add(polygon(q, r, 0.15));
        // The lead goes on to the body.
        feet.add(polygon(q, bridge(t, r), 0.15));
      }
      fill(feet, tin, 1);
    }
    Surface top = body(t, seed);
    if (t.body() != null) {
      List<double[][]> faces = new ArrayList<>();
      for (Rect r : leads || below ? List.of(t.body()) : between(t)) {
        faces.add(polygon(leads ? onLeads : q, r, h));
      }
      if (!leads && !below) {
        // Body and ends share edges: drawn in one pass, pixel shares add up exactly.
        List<double[][]> ends = new ArrayList<>();
        t.terminations().forEach(r -> ends.add(polygon(q, r, h)));
        fillTogether(faces, top, ends, tin);
      } else {
        fill(faces, top, 1);
      }
      marking(t, q, h, seed);
    } else {
      List<double[][]> ends = new ArrayList<>();
      t.terminations().forEach(r -> ends.add(polygon(q, r, h)));
      fill(ends, tin, 1);
    }
  }

  private Surface body(PartType t, long seed) {
    boolean ceramic = t.kind() == JointKind.CHIP && t.name().startsWith("C");
    int[] c = ceramic ? new int[] {92, 128, 160} : new int[] {42, 40, 40};
    return Surface.cloudy(c, 0.07 * s.texture(), 2.5, seed);
  }

  /** Laser marking on a body: light bars, away from the edges, not symmetric. */
  private void marking(PartType t, Pose q, double h, long seed) {
    Rect b = t.body();
    if (b == null || s.texture() == 0 || b.widthMm() < 0.7 || t.name().startsWith("C")) {
      return;
    }
    Random r = new Random(seed);
    double room = 0.25 * b.lengthMm();
    Surface mark = Surface.cloudy(new int[] {105, 108, 108}, 0.1, 2, seed);
    for (int i = 0; i < 3; i++) {
      double x = b.xMm() + (r.nextDouble() - 0.5) * room;
      double y = b.yMm() + (i - 1) * b.widthMm() / 5;
      Rect bar = new Rect(x, y, 0.3 * b.lengthMm(), 0.06 * b.widthMm());
      fill(polygon(q, bar, h), mark, 1);
    }
  }

  /** What is left of a chip's body between its terminations. */
  private static List<Rect> between(PartType t) {
    Rect b = t.body();
    double lo = b.xMm() - b.lengthMm() / 2;
    double hi = b.xMm() + b.lengthMm() / 2;
    for (Rect r : t.terminations()) {
      if (r.xMm() < 0) {
        lo = Math.max(lo, r.xMm() + r.lengthMm() / 2);
      } else {
        hi = Math.min(hi, r.xMm() - r.lengthMm() / 2);
      }
    }
    return List.of(new Rect((lo + hi) / 2, b.yMm(), hi - lo, b.widthMm()));
  }

  private static Rect bridge(PartType t, Rect r) {
    Rect b = t.body();
    boolean alongX = Math.abs(r.xMm()) / b.lengthMm() >= Math.abs(r.yMm()) / b.widthMm();
    if (alongX) {
      double edge = Math.signum(r.xMm()) * (b.lengthMm() / 2 - 0.05);
      double root = r.xMm() - Math.signum(r.xMm()) * r.lengthMm() / 2;
      return new Rect((edge + root) / 2, r.yMm(), Math.abs(root - edge), r.widthMm());
    }
    double edge = Math.signum(r.yMm()) * (b.widthMm() / 2 - 0.05);
    double root = r.yMm() - Math.signum(r.yMm()) * r.widthMm() / 2;
    return new Rect(r.xMm(), (edge + root) / 2, r.lengthMm(), Math.abs(root - edge));
  }

  // --- geometry ----------------------------------------------------------------------------

  private double[][] polygon(Pose at, Rect r, double z) {
    double l = r.lengthMm() / 2;
    double w = r.widthMm() / 2;
    double[][] corner = {{-l, -w}, {l, -w}, {l, w}, {-l, w}};
    int parts = s.lens() == null ? 1 : Math.max(1, (int) Math.ceil(2 * Math.max(l, w)));
    double[][] out = new double[4 * parts][];
    double c = Math.cos(Math.toRadians(at.rotationDeg()));
    double n = Math.sin(Math.toRadians(at.rotationDeg()));
    for (int i = 0; i < 4; i++) {
      double[] a = corner[i];
      double[] b = corner[(i + 1) % 4];
      for (int k = 0; k < parts; k++) {
        double x = r.xMm() + a[0] + (b[0] - a[0]) * k / parts;
        double y = r.yMm() + a[1] + (b[1] - a[1]) * k / parts;
        out[i * parts + k] =
            onRaster(truth.at(at.xMm() + c * x - n * y, at.yMm() + n * x + c * y, z));
      }
    }
    return out;
  }

  private double[][] polygon(Pose at, double[][] corners, double z) {
    double c = Math.cos(Math.toRadians(at.rotationDeg()));
    double n = Math.sin(Math.toRadians(at.rotationDeg()));
    double[][] out = new double[corners.length][];
    for (int i = 0; i < out.length; i++) {
      double x = corners[i][0];
      double y = corners[i][1];
      out[i] = onRaster(truth.at(at.xMm() + c * x - n * y, at.yMm() + n * x + c * y, z));
    }
    return out;
  }

  /** From picture px to the raster drawn on; centres of first cells are at 0 in both. */
  private double[] onRaster(double[] px) {
    return new double[] {fine * (px[0] + 0.5) - 0.5, fine * (px[1] + 0.5) - 0.5};
  }

  private double picture(int cell) {
    return (cell + 0.5) / fine - 0.5;
  }

  private double[][] circle(double x, double y, double radius) {
    double[][] out = new double[96][];
    for (int i = 0; i < out.length; i++) {
      double a = 2 * Math.PI * i / out.length;
      // Area of the polygon equals the circle's.
      double r = radius * 1.000714;
      out[i] = onRaster(truth.at(x + r * Math.cos(a), y + r * Math.sin(a)));
    }
    return out;
  }

  private void fill(double[][] polygon, Surface surface, double alpha) {
    List<double[][]> one = new ArrayList<>();
    one.add(polygon);
    fill(one, surface, alpha);
  }

  private void fill(List<double[][]> polygons, Surface surface, double alpha) {
    for (double[][] p : polygons) {
      Coverage cover = Coverage.around(p, columns, rows);
      if (cover != null) {
        blend(cover, cover.add(p).shares(), surface, alpha);
      }
    }
  }

  private void blend(Coverage at, float[] share, Surface surface, double alpha) {
    double[] c = new double[3];
    for (int y = 0; y < at.height; y++) {
      for (int x = 0; x < at.width; x++) {
        double a = share[y * at.width + x] * alpha;
        if (a <= 0) {
          continue;
        }
        surface.colour(picture(at.x0 + x), picture(at.y0 + y), c);
        int k = (at.y0 + y) * columns + at.x0 + x;
        for (int i = 0; i < 3; i++) {
          image[i][k] += (float) (a * (c[i] - image[i][k]));
        }
      }
    }
  }

  /** Two sets of shapes that touch but do not overlap, blended in one step. */
  private void fillTogether(List<double[][]> a, Surface sa, List<double[][]> b, Surface sb) {
    List<double[]> points = new ArrayList<>();
    a.forEach(p -> points.addAll(List.of(p)));
    b.forEach(p -> points.addAll(List.of(p)));
    Coverage window = Coverage.around(points.toArray(new double[0][]), columns, rows);
    if (window == null) {
      return;
    }
    float[] ca = shares(window, a);
    float[] cb = shares(window, b);
    double[] va = new double[3];
    double[] vb = new double[3];
    for (int y = 0; y < window.height; y++) {
      for (int x = 0; x < window.width; x++) {
        int i = y * window.width + x;
        double left = 1 - Math.min(1, ca[i] + cb[i]);
        if (left == 1) {
          continue;
        }
        sa.colour(picture(window.x0 + x), picture(window.y0 + y), va);
        sb.colour(picture(window.x0 + x), picture(window.y0 + y), vb);
        int k = (window.y0 + y) * columns + window.x0 + x;
        for (int c = 0; c < 3; c++) {
          image[c][k] = (float) (left * image[c][k] + ca[i] * va[c] + cb[i] * vb[c]);
        }
      }
    }
  }

  private static float[] shares(Coverage window, List<double[][]> polygons) {
    Coverage c = new Coverage(window.x0, window.y0, window.width, window.height);
    polygons.forEach(c::add);
    return c.shares();
  }

  // --- the camera --------------------------------------------------------------------------

  private float[][] throughOptics() {
    float[][] out = new float[3][];
    double diagonal = Math.hypot(width, height) / 2;
    for (int c = 0; c < 3; c++) {
      out[c] = blurred(image[c]);
      for (int y = 0; y < height && s.vignette() > 0; y++) {
        for (int x = 0; x < width; x++) {
          double r = Math.hypot(x - width / 2.0, y - height / 2.0) / diagonal;
          out[c][y * width + x] *= (float) (1 - s.vignette() * r * r);
        }
      }
    }
    return out;
  }

  private Rendered develop() {
    Random random = new Random(s.seed() * 7919 + 17);
    byte[] bgr = new byte[3 * width * height];
    float[][] light = throughOptics();
    for (int c = 0; c < 3; c++) {
      for (int i = 0; i < width * height; i++) {
        double v = light[c][i];
        v += noiseSd(s, v) * random.nextGaussian();
        bgr[3 * i + c] = (byte) Math.max(0, Math.min(255, Math.round(v)));
      }
    }
    Mat m = new Mat(height, width, opencv_core.CV_8UC3, new BytePointer(bgr)).clone();
    byte[] file = encode(m, s.jpegQuality());
    if (s.jpegQuality() > 0) {
      return new Rendered(file, PictureReader.decode("rendered.jpg", file), truth);
    }
    return new Rendered(file, new Picture("rendered.png", m), truth);
  }

  /** Blur of the optics, then each pixel's mean over its area. */
  private float[] blurred(float[] channel) {
    if (s.blurPx() == 0 && s.motionPx() == 0 && fine == 1) {
      return channel.clone();
    }
    try (Mat m = new Mat(rows, columns, opencv_core.CV_32F);
        Mat small = new Mat()) {
      m.<java.nio.FloatBuffer>createBuffer().put(channel);
      if (s.blurPx() > 0) {
        int k = 2 * (int) Math.ceil(4 * s.blurPx() * fine) + 1;
        opencv_imgproc.GaussianBlur(m, m, new Size(k, k), s.blurPx() * fine);
      }
      if (s.motionPx() > 0) {
        int k = 2 * (int) Math.ceil(s.motionPx() * fine / 2) + 1;
        opencv_imgproc.blur(m, m, new Size(k, 1));
      }
      opencv_imgproc.resize(m, small, new Size(width, height), 0, 0, opencv_imgproc.INTER_AREA);
      float[] out = new float[width * height];
      small.<java.nio.FloatBuffer>createBuffer().get(out);
      return out;
    }
  }

  public static byte[] encode(Mat m, int jpegQuality) {
    BytePointer out = new BytePointer();
    if (jpegQuality > 0) {
      IntPointer q = new IntPointer(opencv_imgcodecs.IMWRITE_JPEG_QUALITY, jpegQuality);
      opencv_imgcodecs.imencode(".jpg", m, out, q);
    } else {
      IntPointer q = new IntPointer(opencv_imgcodecs.IMWRITE_PNG_COMPRESSION, 1);
      opencv_imgcodecs.imencode(".png", m, out, q);
    }
    byte[] b = new byte[(int) out.limit()];
    out.get(b);
    return b;
  }
}
