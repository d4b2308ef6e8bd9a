package org.padtrue.imaging.registration;

import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.javacpp.DoublePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Point;
import org.bytedeco.opencv.opencv_core.Size;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.Consensus;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapFit;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Blobs;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.reader.PoseReader;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Lays a picture onto the panel without fiducials: by where the parts stand, then, where enough of
 * them show, by the lands beside the parts.
 *
 * <p>A small picture of 'how unlike the ground' is compared with a drawing of the job at many
 * scales and turns; the best is improved by the parts' own look, then by their outlines.
 */
public final class PartsRegistration {
  /** Longer side of the small picture, px. */
  private static final int SMALL = 220;

  private static final double SURROUND_PX = 5;

  /** So many of the commonest colours may be the solder mask. */
  private static final int GROUNDS = 3;

  /** The parts reach over at least so much of the largest extent that fits the picture. */
  private static final double SMALLEST = 0.32;

  private static final int MIN_PARTS = 6;

  /** Evidence of the parts that only the true map reaches. */
  static final double CLEAR = 0.4;

  /** How far a fiducial may be from where the parts have it, mm. */
  private static final double MARK_REACH_MM = 0.4;

  /** At most so many fiducials are looked at one by one, spread over the job's. */
  private static final int MARKS = 6;

  /** Parts beside a fiducial that vote on maps about it. */
  private static final int NEAR = 14;

  /** Parts beside a fiducial that are asked first, being nearly where any map has them. */
  private static final int NEAREST = 5;

  /** Coarse steps of maps about a fiducial: the nearest parts follow half of one. */
  private static final double SCALE_STEP = 0.03;

  private static final double TURN_STEP_DEG = 2;

  /** Coarse maps about one spot that are looked at more finely. */
  private static final int LIKELY = 8;

  /** What the parts nearest to a fiducial must show for a map about it to be looked at. */
  private static final double NEAR_EVIDENCE = 0.2;

  /** Resolution at which parts tell well enough which of several maps is right. */
  private static final double ENOUGH_PX_PER_MM = 22;

  /** Guesses that are climbed from in small steps, of about a hundred. */
  private static final int CLIMBED = 24;

  /** How far off parts are looked for first, mm, and how many of them. */
  private static final double FIRST_REACH_MM = 0.8;

  private static final int FIRST_COUNT = 40;

  /**
   * So many are asked before the others, and so many of these must agree: where chance rules, five
   * of 24 do for one map in seven. A right map on which 40 % of the parts are seen in place is
   * given up with a probability of 1.3 %, one with half of them with less than 0.1 % (binomial).
   */
  private static final int FIRST_FEW = 24;

  private static final int FIRST_AGREE = 5;

  /** Where so many of the parts agree no other map needs to be looked at. */
  private static final double SURE = 0.6;

  /**
   * Where so many agree the picture is not looked at from below as well: on a regular board up to
   * 73 % of the parts were seen to stand in place in its mirror image.
   */
  private static final double FIRM = 0.8;

  /** A map that chance brings about with more than this probability is not the right one. */
  private static final double CHANCE = 0.01;

  /** Parts asked once a map holds roughly. */
  private static final int NEXT_COUNT = 90;

  /** How far off parts are looked for once a map holds roughly, mm. */
  private static final double NEXT_REACH_MM = 0.3;

  /** Guesses that are held against the parts' outlines. */
  private static final int TRIED = 6;

  /** Parts that leave more than this do not agree on a map: placement scatter is far less, mm. */
  private static final double MAX_RESIDUAL_MM = 0.15;

  /**
   * The same where not nearly all agree: parts seen anywhere within their reach leave little more,
   * once the farthest are dropped. Wrong maps of rendered boards left 0.107 mm and more on 60 to 73
   * % of the parts, right ones 0.06 mm.
   */
  private static final double FEW_RESIDUAL_MM = 0.1;

  /** Lands that leave a map less certain than this anywhere on the panel do not hold it, mm. */
  private static final double WORST_MM = 0.03;

  /** Where less than this share of the lands seen agree, the parts file may have them wrong. */
  private static final double FEW_AGREE = 0.5;

  private final Features features;
  private final Picture picture;
  private final List<KnownMark> marks;
  private final List<Sites.Site> sites;
  private final @Nullable CameraModel lens;
  private final LandPatterns lands;
  private final double[] bounds;
  private final Evidence evidence;

  /** Enough of it to tell which guesses are worth climbing from in small steps. */
  private final Evidence fewer;

  /** Direction of the board's edges in the picture, modulo a right angle, degrees. */
  private final double along;

  private final Map<PartType, Outline> drawn = new HashMap<>();

  public PartsRegistration(
      Features features,
      List<KnownMark> marks,
      List<Sites.Site> sites,
      List<Sites.Site> bare,
      @Nullable CameraModel lens) {
    this.features = features;
    this.picture = features.picture();
    this.marks = marks;
    this.sites = sites.stream().filter(s -> Outline.known(s.type())).toList();
    this.lens = lens;
    this.lands = new LandPatterns(picture, sites, bare, lens);
    this.bounds = Sites.bounds(sites, List.of());
    this.evidence = new Evidence(this.sites, 120);
    this.fewer = new Evidence(this.sites, 40);
    this.along = features.lines().directionDeg();
  }

  /**
   * A rough map with its score.
   *
   * @param ground which of the likely colours of the ground it was seen against
   */
  private record Guess(double[] h, double score, int ground) {
    Guess(double[] h, double score) {
      this(h, score, 0);
    }
  }

  /** What the parts show at best on any rough map: 0 nothing, {@link #CLEAR} and more the board. */
  double evidence() {
    List<Guess> all = new ArrayList<>(sites.size() < MIN_PARTS ? List.of() : coarse());
    all.sort(Comparator.comparingDouble((Guess g) -> -g.score));
    List<Guess> best = climbed(all.subList(0, Math.min(LIKELY, all.size())));
    return best.isEmpty() ? 0 : best.get(0).score;
  }

  public Registration.@Nullable Registered find() {
    if (sites.size() < MIN_PARTS) {
      return null;
    }
    List<Guess> better = climbed(coarse());
    if (better.isEmpty() || better.get(0).score < CLEAR) {
      List<Guess> about = new ArrayList<>(better);
      for (double i = 0; i < marks.size(); i += Math.max(1, marks.size() / (double) MARKS)) {
        about.addAll(climbed(around(marks.get((int) i))));
      }
      about.sort(Comparator.comparingDouble((Guess g) -> -g.score));
      better = about.subList(0, Math.min(TRIED, about.size()));
    }
    List<Rough> roughs = new ArrayList<>();
    for (Guess g : better) {
      Rough r = settled(g);
      if (r != null) {
        roughs.add(r);
        if (r.share > SURE) {
          break;
        }
      }
    }
    roughs.sort(Comparator.comparingDouble((Rough r) -> -r.share));
    for (Rough r : roughs) {
      Registration.Registered done = finished(r.map);
      if (done != null && done.report().residualMm() < mostResidualMm(done)) {
        return done;
      }
      if (r.share > SURE) {
        // The board, but its parts scatter too much: a map that fewer agree on is no better.
        return null;
      }
    }
    return null;
  }

  private double mostResidualMm(Registration.Registered r) {
    return firm(r) ? MAX_RESIDUAL_MM : FEW_RESIDUAL_MM;
  }

  /** Whether so many parts agree on a map that no other one, of the mirror image say, may do so. */
  public boolean firm(Registration.Registered r) {
    return r.report().registeredOn() != RegisteredOn.PARTS
        || r.pairs().size() > FIRM * Math.min(sites.size(), NEXT_COUNT);
  }

  private List<Guess> climbed(List<Guess> guesses) {
    List<Guess> all = guesses;
    if (all.size() > CLIMBED) {
      all =
          guesses.parallelStream()
              .map(g -> climb(g, fewer, 0.4))
              .sorted(Comparator.comparingDouble((Guess g) -> -g.score))
              .limit(CLIMBED)
              .toList();
    }
    return all.parallelStream()
        .map(g -> climb(g, evidence, 0.05))
        .filter(g -> g.score >= 0.12)
        .sorted(Comparator.comparingDouble((Guess g) -> -g.score))
        .limit(TRIED)
        .toList();
  }

  // --- the small picture -------------------------------------------------------------------

  private List<Guess> coarse() {
    double shrink = Math.max(picture.width(), picture.height()) / (double) SMALL;
    int w = (int) Math.round(picture.width() / shrink);
    int h = (int) Math.round(picture.height() / shrink);
    List<Mat> unlike = List.of();
    try (Mat small = new Mat()) {
      opencv_imgproc.resize(picture.mat(), small, new Size(w, h), 0, 0, opencv_imgproc.INTER_AREA);
      byte[] bgr = new byte[3 * w * h];
      small.<java.nio.ByteBuffer>createBuffer().get(bgr);
      unlike = grounds(bgr).stream().map(ground -> unlike(bgr, w, h, ground)).toList();
      return best(scan(unlike, shrink));
    } finally {
      unlike.forEach(Mat::close);
    }
  }

  /**
   * The best of every quarter turn, step of scale and colour of the ground: the parts decide
   * between them. Against the table's colour the panel as a whole stands out, and its parts do not.
   */
  private List<Guess> best(List<Guess> all) {
    java.util.Map<Long, Guess> by = new java.util.TreeMap<>();
    for (Guess g : all) {
      double scale = Math.hypot(g.h[0], g.h[3]);
      long quarter = Math.round((Math.toDegrees(Math.atan2(-g.h[3], g.h[0])) - along) / 90) & 3;
      long key = 4 * Math.round(Math.log(scale) / 0.04) + quarter;
      key = GROUNDS * key + g.ground;
      by.merge(key, g, (a, b) -> a.score >= b.score ? a : b);
    }
    return List.copyOf(by.values());
  }

  /** The commonest colours, in cells of 32 levels: one of them is the solder mask. */
  private static List<int[]> grounds(byte[] bgr) {
    int[] count = new int[512];
    for (int i = 0; i + 2 < bgr.length; i += 3) {
      count[cell(bgr, i)]++;
    }
    Integer[] order = new Integer[512];
    Arrays.setAll(order, i -> i);
    Arrays.sort(order, Comparator.comparingInt(i -> -count[i]));
    List<int[]> out = new ArrayList<>();
    for (int k = 0; k < GROUNDS; k++) {
      int c = order[k];
      out.add(new int[] {(c & 7) * 32 + 16, (c >> 3 & 7) * 32 + 16, (c >> 6) * 32 + 16});
    }
    return out;
  }

  private static int cell(byte[] bgr, int i) {
    return (bgr[i] & 0xFF) >> 5 | ((bgr[i + 1] & 0xFF) >> 5) << 3 | ((bgr[i + 2] & 0xFF) >> 5) << 6;
  }

  private static Mat unlike(byte[] bgr, int w, int h, int[] ground) {
    int pad = Math.max(w, h) / 8;
    Mat m = new Mat(h + 2 * pad, w + 2 * pad, opencv_core.CV_32F);
    FloatBuffer f = m.createBuffer();
    for (int y = -pad; y < h + pad; y++) {
      for (int x = -pad; x < w + pad; x++) {
        int i = 3 * (Math.max(0, Math.min(h - 1, y)) * w + Math.max(0, Math.min(w - 1, x)));
        double d = 0;
        for (int c = 0; c < 3; c++) {
          d += Math.abs((bgr[i + c] & 0xFF) - ground[c]);
        }
        f.put((float) Math.min(1, Math.max(0, d - 40) / 120));
      }
    }
    return detail(m);
  }

  /** What differs from its wider surroundings: neither table nor large connectors decide. */
  private static Mat detail(Mat m) {
    try (Mat mean = new Mat()) {
      opencv_imgproc.GaussianBlur(m, mean, new Size(0, 0), SURROUND_PX);
      opencv_core.subtract(m, mean, m);
    }
    return m;
  }

  /** Holds drawings at every scale and turn against how unlike the picture is to each ground. */
  private List<Guess> scan(List<Mat> unlike, double shrink) {
    int pad = padOf(unlike.get(0));
    // Before several threads ask for them.
    sites.forEach(s -> drawn(s.type()));
    List<double[]> views = new ArrayList<>();
    double[] limits = MapSearch.scaleLimits(picture, bounds);
    for (double s = limits[1]; s > SMALLEST * limits[1]; s *= 0.965) {
      for (int quarter = 0; quarter < 4; quarter++) {
        for (int tilt = -2; tilt <= 2; tilt += 2) {
          views.add(new double[] {s / shrink, along + 90.0 * quarter + tilt});
        }
      }
    }
    return views.parallelStream()
        .flatMap(v -> match(unlike, v[0], v[1], shrink, pad).stream())
        .toList();
  }

  private int padOf(Mat unlike) {
    double shrink = Math.max(picture.width(), picture.height()) / (double) SMALL;
    return (unlike.cols() - (int) Math.round(picture.width() / shrink)) / 2;
  }

  private List<Guess> match(
      List<Mat> unlike, double scale, double angleDeg, double shrink, int pad) {
    double c = Angles.cosDeg(angleDeg) * scale;
    double s = Angles.sinDeg(angleDeg) * scale;
    double[] ext = {1e9, 1e9, -1e9, -1e9};
    for (int i = 0; i < 4; i++) {
      double x = bounds[i % 2 == 0 ? 0 : 2];
      double y = bounds[i < 2 ? 1 : 3];
      ext[0] = Math.min(ext[0], c * x - s * y);
      ext[2] = Math.max(ext[2], c * x - s * y);
      ext[1] = Math.min(ext[1], -(s * x + c * y));
      ext[3] = Math.max(ext[3], -(s * x + c * y));
    }
    double edge = 1.5 * scale;
    int w = (int) Math.ceil(ext[2] - ext[0] + 2 * edge);
    int h = (int) Math.ceil(ext[3] - ext[1] + 2 * edge);
    if (w < 16 || h < 16 || w >= unlike.get(0).cols() || h >= unlike.get(0).rows()) {
      return List.of();
    }
    List<Guess> out = new ArrayList<>();
    try (Mat drawing = drawing(w, h, c, s, ext[0] - edge, ext[1] - edge);
        Mat score = new Mat();
        DoublePointer most = new DoublePointer(1);
        Point at = new Point()) {
      for (int i = 0; i < unlike.size(); i++) {
        opencv_imgproc.matchTemplate(
            unlike.get(i), drawing, score, opencv_imgproc.TM_CCOEFF_NORMED);
        opencv_core.minMaxLoc(score, null, most, null, at, null);
        double tx = at.x() - pad - (ext[0] - edge);
        double ty = at.y() - pad - (ext[1] - edge);
        double k = shrink;
        out.add(
            new Guess(
                new double[] {
                  c * k, -s * k, tx * k + (k - 1) / 2, -s * k, -c * k, ty * k + (k - 1) / 2, 0, 0, 1
                },
                most.get(),
                i));
      }
    }
    return out;
  }

  private Mat drawing(int w, int h, double c, double s, double x0, double y0) {
    float[] v = new float[w * h];
    for (Sites.Site site : sites) {
      Outline o = drawn(site.type());
      double a = Angles.cosDeg(site.nominal().rotationDeg());
      double b = Angles.sinDeg(site.nominal().rotationDeg());
      double scale = Math.hypot(c, s);
      double step = 0.7 / scale;
      for (double q = -o.halfWidthMm(); q <= o.halfWidthMm(); q += step) {
        for (double p = -o.halfLengthMm(); p <= o.halfLengthMm(); p += step) {
          double x = site.nominal().xMm() + a * p - b * q;
          double y = site.nominal().yMm() + b * p + a * q;
          int px = (int) Math.round(c * x - s * y - x0);
          int py = (int) Math.round(-(s * x + c * y) - y0);
          if (px >= 0 && py >= 0 && px < w && py < h) {
            v[py * w + px] = 1;
          }
        }
      }
    }
    Mat m = new Mat(h, w, opencv_core.CV_32F);
    m.<FloatBuffer>createBuffer().put(v);
    return detail(m);
  }

  // --- one fiducial ------------------------------------------------------------------------

  /** Rough maps that turn about a spot taken for a fiducial, by the parts that stand near it. */
  private List<Guess> around(KnownMark m) {
    List<Sites.Site> near =
        sites.stream()
            .sorted(
                Comparator.comparingDouble(
                    (Sites.Site s) ->
                        Math.hypot(s.nominal().xMm() - m.xMm(), s.nominal().yMm() - m.yMm())))
            .limit(NEAR)
            .toList();
    Evidence nearest = new Evidence(near.subList(0, Math.min(NEAREST, near.size())), NEAREST);
    Evidence look = new Evidence(near, NEAR);
    double[] limits = MapSearch.scaleLimits(picture, bounds);
    List<Guess> all =
        features.likelySpots().parallelStream()
            .flatMap(spot -> about(m, spot, nearest, look, limits).stream())
            .toList();
    List<Guess> best = new ArrayList<>(all);
    best.sort(Comparator.comparingDouble((Guess g) -> -g.score));
    return List.copyOf(best.subList(0, Math.min(TRIED, best.size())));
  }

  /** The best map about one spot, if any is possible. */
  private List<Guess> about(
      KnownMark m, Blobs.Spot spot, Evidence nearest, Evidence look, double[] limits) {
    List<double[]> likely = new ArrayList<>();
    for (double k = limits[1]; k > SMALLEST * limits[1]; k *= 1 - SCALE_STEP) {
      for (int turn = 0; turn < 12 && MapSearch.fits(spot, m, k); turn++) {
        double angle = along + 90.0 * (turn / 3) + (turn % 3 - 1) * TURN_STEP_DEG;
        double e = nearest.of(picture, new PanelToPicture(pivot(m, spot, k, angle), null));
        if (e > NEAR_EVIDENCE) {
          likely.add(new double[] {e, k, angle});
        }
      }
    }
    likely.sort(Comparator.comparingDouble((double[] v) -> -v[0]));
    Guess best = null;
    for (double[] v : likely.subList(0, Math.min(LIKELY, likely.size()))) {
      for (int i = 0; i < 9; i++) {
        double k = v[1] * (1 + (i / 3 - 1) * SCALE_STEP / 2);
        double[] h = pivot(m, spot, k, v[2] + (i % 3 - 1) * TURN_STEP_DEG / 2);
        double e = look.of(picture, new PanelToPicture(h, null));
        if (best == null || e > best.score) {
          best = new Guess(h, e);
        }
      }
    }
    return best == null ? List.of() : List.of(best);
  }

  /** The map of that scale and turn that puts a mark onto a spot. */
  private static double[] pivot(KnownMark m, Blobs.Spot spot, double scale, double angleDeg) {
    double c = scale * Angles.cosDeg(angleDeg);
    double s = scale * Angles.sinDeg(angleDeg);
    return new double[] {
      c,
      -s,
      spot.x() - c * m.xMm() + s * m.yMm(),
      -s,
      -c,
      spot.y() + s * m.xMm() + c * m.yMm(),
      0,
      0,
      1
    };
  }

  // --- improving ---------------------------------------------------------------------------

  /** Climbs by shift, turn and scale, in steps down to that many mm, while parts look better. */
  private Guess climb(Guess g, Evidence evidence, double leastMm) {
    double cx = (bounds[0] + bounds[2]) / 2;
    double cy = (bounds[1] + bounds[3]) / 2;
    double half = Math.hypot(bounds[2] - bounds[0], bounds[3] - bounds[1]) / 2;
    double[] h = g.h.clone();
    double score = evidence.of(picture, new PanelToPicture(h, null));
    for (double step = 1.2; step > leastMm; step *= 0.6) {
      boolean moved = true;
      for (int turn = 0; moved && turn < 4; turn++) {
        moved = false;
        for (int k = 0; k < 8; k++) {
          double d = k % 2 == 0 ? step : -step;
          double[] t = nudge(h, cx, cy, half, k / 2, d);
          double e = evidence.of(picture, new PanelToPicture(t, null));
          if (e > score) {
            score = e;
            h = t;
            moved = true;
          }
        }
      }
    }
    return new Guess(h, score);
  }

  private static double[] nudge(
      double[] h, double cx, double cy, double half, int kind, double mm) {
    double a = kind == 2 ? mm / half : 0;
    double f = kind == 3 ? 1 + mm / half : 1;
    double c = f * Math.cos(a);
    double s = f * Math.sin(a);
    double dx = kind == 0 ? mm : 0;
    double dy = kind == 1 ? mm : 0;
    double[] m = {c, -s, cx - c * cx + s * cy + dx, s, c, cy - s * cx - c * cy + dy, 0, 0, 1};
    return Matrices.product3(h, m);
  }

  /** A map on which that share of the parts asked agree by their outlines. */
  private record Rough(PanelToPicture map, double share) {}

  /** Fits the map to the parts' outlines, in a picture no larger than that takes. */
  private @Nullable Rough settled(Guess g) {
    double share = lens == null ? ENOUGH_PX_PER_MM / Math.hypot(g.h[0], g.h[3]) : 1;
    if (share > 0.8) {
      return settled(picture, new PanelToPicture(g.h, null));
    }
    try (Picture small = picture.reduced(share)) {
      double fx = small.width() / (double) picture.width();
      double fy = small.height() / (double) picture.height();
      // Centres of the first pixels lie at 0 in both.
      double[] down = {fx, 0, (fx - 1) / 2, 0, fy, (fy - 1) / 2, 0, 0, 1};
      double[] up = {1 / fx, 0, (1 / fx - 1) / 2, 0, 1 / fy, (1 / fy - 1) / 2, 0, 0, 1};
      Rough r = settled(small, new PanelToPicture(Matrices.product3(down, g.h), null));
      return r == null
          ? null
          : new Rough(new PanelToPicture(Matrices.product3(up, r.map.homography()), null), r.share);
    }
  }

  private @Nullable Rough settled(Picture p, PanelToPicture rough) {
    Rough first = round(rough, firstAgreed(p, rough), FIRST_COUNT);
    return first == null || first.share > SURE
        ? first
        : round(first.map, agreed(p, first.map), NEXT_COUNT);
  }

  /**
   * Parts that agree on a map though it may be far off; none where chance would let as many agree.
   * Few maps are right, so the parts that cost least are asked first.
   */
  private List<MapFit.Pair> firstAgreed(Picture p, PanelToPicture map) {
    double tolerancePx = MAX_RESIDUAL_MM * map.scaleAt(bounds[0], bounds[1]);
    boolean mirrored = map.mirrored(bounds[0], bounds[1]);
    List<Sites.Site> sample = new ArrayList<>(Sites.sample(sites, FIRST_COUNT));
    sample.sort(Sites.smallestFirst());
    int few = Math.min(sample.size(), FIRST_FEW);
    List<MapFit.Pair> seen = new ArrayList<>(parts(p, map, FIRST_REACH_MM, sample.subList(0, few)));
    if (few < sample.size()
        && Consensus.of(seen, mirrored, tolerancePx).agreeing().size() < FIRST_AGREE) {
      return List.of();
    }
    seen.addAll(parts(p, map, FIRST_REACH_MM, sample.subList(few, sample.size())));
    Consensus all = Consensus.of(seen, mirrored, tolerancePx);
    double share = Math.pow(MAX_RESIDUAL_MM / FIRST_REACH_MM, 2);
    return all.byChance(share) > CHANCE
        ? List.of()
        : enough(
            agreeing(near(seen, all.agreeing(), mirrored, tolerancePx), mirrored), FIRST_COUNT);
  }

  /** All pairs within the tolerance of the map that some of them agree on. */
  private static List<MapFit.Pair> near(
      List<MapFit.Pair> all, List<MapFit.Pair> some, boolean mirrored, double tolerancePx) {
    List<MapFit.Pair> in = some;
    for (int i = 0; i < 3; i++) {
      MapFit f =
          MapFit.fit(in, in.size() > 8 ? MapFamily.AFFINE : MapFamily.SIMILARITY, mirrored, 1);
      if (f == null) {
        return some;
      }
      double[] r = f.residuals(all);
      List<MapFit.Pair> next = new ArrayList<>();
      for (int k = 0; k < r.length; k++) {
        if (r[k] < tolerancePx) {
          next.add(all.get(k));
        }
      }
      in = next.size() < some.size() ? in : next;
    }
    return in;
  }

  private Outline drawn(PartType t) {
    return drawn.computeIfAbsent(t, Outline::of);
  }

  private @Nullable Rough round(PanelToPicture map, List<MapFit.Pair> used, int count) {
    MapFit fit = Registration.chooseByParts(used, 0.03 * map.scaleAt(bounds[0], bounds[1]));
    return used.isEmpty() || fit == null
        ? null
        : new Rough(
            new PanelToPicture(fit.h, lens), used.size() / (double) Math.min(sites.size(), count));
  }

  /** Parts that agree on a map; none where they are too few for it to be the right one. */
  private List<MapFit.Pair> agreed(Picture p, PanelToPicture map) {
    List<MapFit.Pair> seen = parts(p, map, NEXT_REACH_MM, Sites.sample(sites, NEXT_COUNT));
    return enough(agreeing(seen, map.mirrored(bounds[0], bounds[1])), NEXT_COUNT);
  }

  private List<MapFit.Pair> enough(List<MapFit.Pair> used, int count) {
    // Chance lets a few parts agree on some map; the right one is agreed on by most.
    return used.size() < Math.max(MIN_PARTS, 0.25 * Math.min(sites.size(), count))
        ? List.of()
        : used;
  }

  /** Fits the map to the parts' outlines in the full picture, then to the lands that show. */
  private Registration.@Nullable Registered finished(PanelToPicture rough) {
    List<MapFit.Pair> used = agreed(picture, rough);
    MapFit fit = Registration.chooseByParts(used, 0.03 * rough.scaleAt(bounds[0], bounds[1]));
    if (used.isEmpty() || fit == null) {
      return null;
    }
    PanelToPicture map = new PanelToPicture(fit.h, lens);
    if (Registration.tilt(map, bounds[0], bounds[1]) > Registration.MAX_TILT_DEG) {
      return null;
    }
    RegisteredOn on = RegisteredOn.PARTS;
    LandPatterns.Held held = lands.holding(map);
    List<MapFit.Pair> seen = agreeing(held.pairs(), false);
    MapFit onLands =
        seen.size() < LandPatterns.FEWEST
            ? null
            : Registration.chooseByParts(seen, LandPatterns.floorPx(map, bounds));
    onLands = onLands == null ? null : onLands.widened(wider(onLands, held, map));
    if (onLands != null && worstMm(onLands, map) < WORST_MM) {
      fit = onLands;
      used = seen;
      map = new PanelToPicture(fit.h, lens);
      on = RegisteredOn.LANDS;
    }
    return registered(map, fit, used, on, aboutLands(held, on));
  }

  /** What lands that were seen and do not agree have to say. */
  private static List<String> aboutLands(LandPatterns.Held held, RegisteredOn on) {
    String agree = held.agree() + " of the lands of " + held.seen() + " parts seen agree";
    boolean few = held.agree() < FEW_AGREE * held.seen();
    if (on == RegisteredOn.LANDS) {
      return few ? List.of("only " + agree + ": check the lands in the parts file") : List.of();
    }
    if (held.seen() == 0) {
      return List.of();
    }
    return List.of(
        few
            ? "only " + agree + " and do not hold the picture: check the lands in the parts file"
            : agree
                + ", but are too few or lie too near to each other to hold the picture: four at"
                + " both ends of the panel would");
  }

  /**
   * How much more a map on lands must admit than a fit to them says of itself: how far those that
   * do not agree scatter and lie aside, and what light does to all alike.
   */
  private double wider(MapFit fit, LandPatterns.Held held, PanelToPicture map) {
    double x = (bounds[0] + bounds[2]) / 2;
    double y = (bounds[1] + bounds[3]) / 2;
    double all = Math.hypot(LandPatterns.LIGHT_PX, held.asideMm() * map.scaleAt(x, y));
    return Math.hypot(held.wider(), all / Math.sqrt(fit.variance(x, y)));
  }

  /** Standard uncertainty of a map at the worst corner of what is placed, mm. */
  private double worstMm(MapFit fit, PanelToPicture map) {
    double worst = 0;
    for (int i = 0; i < 4; i++) {
      double x = bounds[i % 2 == 0 ? 0 : 2];
      double y = bounds[i < 2 ? 1 : 3];
      worst = Math.max(worst, Math.sqrt(fit.variance(x, y)) / map.scaleAt(x, y));
    }
    return worst;
  }

  private List<MapFit.Pair> parts(
      Picture p, PanelToPicture map, double reach, List<Sites.Site> sample) {
    PoseReader reader = new PoseReader(p, map, reach);
    return sample.parallelStream()
        .map(
            s -> {
              PartPose seen = reader.glance(s.type(), s.nominal(), 1);
              Pose q = seen.pose();
              return q == null || seen.score() < 0.5 ? null : pair(map, s, q, seen.uMm());
            })
        .filter(java.util.Objects::nonNull)
        .map(q -> (MapFit.Pair) q)
        .toList();
  }

  private MapFit.Pair pair(PanelToPicture map, Sites.Site s, Pose seen, double uMm) {
    double[] q = map.at(seen.xMm(), seen.yMm());
    double[] p = lens == null ? q : lens.undistort(q[0], q[1]);
    double u = Math.hypot(uMm, 0.03) * map.scaleAt(seen.xMm(), seen.yMm());
    return new MapFit.Pair(s.nominal().xMm(), s.nominal().yMm(), p[0], p[1], u);
  }

  /** Pairs on which a similarity or affine map agrees, by repeated trimming. */
  private static List<MapFit.Pair> agreeing(List<MapFit.Pair> pairs, boolean mirrored) {
    List<MapFit.Pair> in = pairs;
    for (int i = 0; i < 8 && in.size() >= 4; i++) {
      MapFit f =
          MapFit.fit(in, in.size() > 8 ? MapFamily.AFFINE : MapFamily.SIMILARITY, mirrored, 1);
      if (f == null) {
        return List.of();
      }
      double[] r = f.residuals(in);
      double[] sorted = r.clone();
      Arrays.sort(sorted);
      double limit = Math.max(1.0, 3 * 1.4826 * sorted[sorted.length / 2]);
      List<MapFit.Pair> next = new ArrayList<>();
      for (int k = 0; k < r.length; k++) {
        if (r[k] <= limit) {
          next.add(in.get(k));
        }
      }
      if (next.size() == in.size()) {
        break;
      }
      in = next;
    }
    return in;
  }

  /** The finished map: held by the fiducials that show after all, as far as they go. */
  private Registration.Registered registered(
      PanelToPicture map, MapFit fit, List<MapFit.Pair> used, RegisteredOn on, List<String> lands) {
    Registration marked = new Registration(features, marks, sites, lens);
    List<Registration.Seen> seen = marked.near(map, MARK_REACH_MM);
    List<Registration.Seen> read = seen.stream().filter(s -> s.reading() != null).toList();
    if (read.size() > 1) {
      Registration.Registered r = marked.fit(seen, false);
      if (r != null && marked.partScore(r.map()) >= 0.9 * marked.partScore(map)) {
        return r;
      }
    }
    if (read.size() == 1 && on == RegisteredOn.LANDS) {
      return withOne(map, fit, used, seen, marked, lands);
    }
    if (read.size() == 1) {
      PanelToPicture held = heldBy(map, read.get(0));
      return report(held, fit, used, on, marked.reports(seen, held, true), lands);
    }
    return report(map, fit, used, on, marked.reports(seen, map, false), lands);
  }

  /** The map of lands with the only fiducial as one more of them, where it agrees. */
  private Registration.Registered withOne(
      PanelToPicture map,
      MapFit fit,
      List<MapFit.Pair> lands,
      List<Registration.Seen> seen,
      Registration marked,
      List<String> about) {
    List<MapFit.Pair> all = new ArrayList<>(lands);
    seen.stream().filter(s -> s.reading() != null).map(marked::pair).forEach(all::add);
    MapFit anew = MapFit.fit(all, fit.family, false, LandPatterns.floorPx(map, bounds));
    MapFit with = anew == null ? null : anew.widened(fit.wider);
    double off = with == null ? 1e9 : with.residuals(all)[lands.size()];
    if (with == null || off > LandPatterns.AGREE_MM * map.scaleAt(bounds[0], bounds[1])) {
      List<String> notes = new ArrayList<>(about);
      notes.add(
          "the only fiducial is not where the lands have it: one of them is wrong in the job");
      return report(map, fit, lands, RegisteredOn.LANDS, marked.reports(seen, map, false), notes);
    }
    PanelToPicture held = new PanelToPicture(with.h, lens);
    return report(held, with, all, RegisteredOn.LANDS, marked.reports(seen, held, true), about);
  }

  /** The map moved so that it meets a fiducial. */
  private PanelToPicture heldBy(PanelToPicture map, Registration.Seen s) {
    MarkReader.Reading r = java.util.Objects.requireNonNull(s.reading());
    double[] is = lens == null ? new double[] {r.x(), r.y()} : lens.undistort(r.x(), r.y());
    double[] at = map.at(s.mark().xMm(), s.mark().yMm());
    double[] was = lens == null ? at : lens.undistort(at[0], at[1]);
    double[] move = {1, 0, is[0] - was[0], 0, 1, is[1] - was[1], 0, 0, 1};
    return new PanelToPicture(Matrices.product3(move, map.homography()), lens);
  }

  private Registration.Registered report(
      PanelToPicture map,
      MapFit fit,
      List<MapFit.Pair> used,
      RegisteredOn on,
      List<MarkReport> reports,
      List<String> about) {
    List<String> notes = new ArrayList<>(List.of(note(on, used, reports)));
    notes.addAll(about);
    double cx = (bounds[0] + bounds[2]) / 2;
    double cy = (bounds[1] + bounds[3]) / 2;
    double scale = map.scaleAt(cx, cy);
    MapReport report =
        new MapReport(
            picture.name(),
            on,
            fit.family,
            scale,
            Registration.direction(map, cx, cy),
            false,
            Registration.tilt(map, cx, cy),
            Math.sqrt(fit.rssPx2 / used.size()) / scale,
            fit.redundancy,
            Math.sqrt(fit.variance(cx, cy)) / scale,
            reports,
            notes);
    return new Registration.Registered(map, fit, used, report, 1);
  }

  private static String note(RegisteredOn on, List<MapFit.Pair> used, List<MarkReport> reports) {
    String only =
        reports.stream().filter(MarkReport::used).map(MarkReport::name).findFirst().orElse("");
    String why =
        switch (reports.size()) {
          case 0 -> "the job names no fiducials: ";
          case 1 -> "the job names one fiducial only: ";
          default ->
              only.isEmpty()
                  ? "none of the "
                      + reports.size()
                      + " fiducials was found where the job has it (mm, panel frame): "
                  : "too few fiducials were found: ";
        };
    if (on == RegisteredOn.LANDS) {
      int lands = used.size() - (only.isEmpty() ? 0 : 1);
      return why
          + "registered on "
          + (only.isEmpty() ? "" : "fiducial " + only + " and ")
          + "the lands of "
          + lands
          + " parts; board stretch and scale of the picture cannot be told apart";
    }
    return (only.isEmpty()
            ? why + "registered on "
            : "only fiducial " + only + " was found and holds the place; turn and scale come from ")
        + used.size()
        + " parts themselves; the panel's shift, rotation and scale cannot be known,"
        + " type offsets and scatter remain";
  }
}
