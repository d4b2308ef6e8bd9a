package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
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
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.reader.PoseReader;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Lays a picture onto the panel by its fiducials. */
public final class Registration {
  /** A view more oblique than this is refused, degrees. */
  public static final double MAX_TILT_DEG = 10;

  /** Standard error believed of a fiducial at best: artwork and etching, mm. */
  private static final double ARTWORK_MM = 0.005;

  /**
   * Parts must look that much in place for a view from the side to be believed: in 36 rendered
   * pictures tilted by 12 to 55 degrees the right map had 0.35 to 0.73 or was not found; wrong maps
   * reach 0.20, the best of several hundred in these and in nine pictures of something else.
   */
  private static final double OBLIQUE_EVIDENCE = 0.28;

  /** Share of its rim that must show of a fiducial that stands alone. */
  private static final double PLAIN = 0.75;

  /** Parts asked about a map before the larger ones are. */
  private static final int FEW_PARTS = 6;

  /** Significance for a richer family. */
  private static final double RICHER = 0.05;

  /** How far a fiducial may lie off a map that lacks its perspective, mm. */
  private static final double WIDE_MM = 2;

  /** Three fiducials agree on a similarity within so many of their standard uncertainties, RMS. */
  private static final double AGREE = 3;

  /** Parts must stand so much nearer to their places on a map that no fiducial confirms. */
  private static final double NEARER = 0.6;

  private static final double RICHER_BY_PARTS = 0.001;

  /**
   * A map with what stands behind it.
   *
   * @param map panel to picture
   * @param fit the fit, for its uncertainty; null when the map was given
   * @param pairs what the fit rests on
   * @param report for people
   * @param sigmaPx blur of the picture
   */
  public record Registered(
      PanelToPicture map,
      @Nullable MapFit fit,
      List<MapFit.Pair> pairs,
      MapReport report,
      double sigmaPx) {
    public Registered {
      pairs = List.copyOf(pairs);
    }

    /** The same for the picture of that width with left and right exchanged. */
    public Registered mirrored(int widthPx) {
      double[] flip = {-1, 0, widthPx - 1.0, 0, 1, 0, 0, 0, 1};
      PanelToPicture back = new PanelToPicture(Matrices.product3(flip, map.homography()), null);
      List<MapFit.Pair> there =
          pairs.stream()
              .map(
                  q -> new MapFit.Pair(q.xMm(), q.yMm(), widthPx - 1.0 - q.xPx(), q.yPx(), q.uPx()))
              .toList();
      return new Registered(back, fit, there, report.mirror(direction(back, 0, 0)), sigmaPx);
    }

    /** Standard uncertainty of the map at a panel point, mm. */
    public double uMm(double xMm, double yMm) {
      return fit == null ? 0 : Math.sqrt(fit.variance(xMm, yMm)) / map.scaleAt(xMm, yMm);
    }
  }

  /** A fiducial with its reading. */
  record Seen(KnownMark mark, MarkReader.@Nullable Reading reading) {}

  private final Features features;
  private final Picture picture;
  private final List<KnownMark> marks;
  private final List<Sites.Site> sites;
  private final @Nullable CameraModel lens;
  private List<MapSearch.Rough> roughs = List.of();

  public Registration(
      Features features,
      List<KnownMark> marks,
      List<Sites.Site> sites,
      @Nullable CameraModel lens) {
    this.features = features;
    this.picture = features.picture();
    this.marks = marks;
    this.sites = sites;
    this.lens = lens;
  }

  /** Registers on fiducials; null when fewer than two usable ones are in the picture. */
  public @Nullable Registered onFiducials() {
    if (marks.size() < 2) {
      return null;
    }
    Evidence evidence = new Evidence(sites, 150);
    roughs = new MapSearch(features, marks, sites).find(evidence);
    Registered best = null;
    double bestScore = Double.NEGATIVE_INFINITY;
    for (MapSearch.Rough r : roughs) {
      Registered candidate = settle(r);
      if (candidate == null) {
        continue;
      }
      boolean clear =
          roughs.size() == 1 || r == roughs.get(0) && r.evidence() > 2 * roughs.get(1).evidence();
      if (clear
          && evidence.many()
          && r.evidence() > 0.3
          && used(candidate) >= Math.min(3, marks.size())) {
        return candidate;
      }
      double parts = partScore(candidate.map);
      double score = parts + 0.75 * evidence.worthOfAFiducial() * used(candidate);
      if (score > bestScore) {
        bestScore = score;
        best = candidate;
      }
      if (evidence.many() && parts > 0.6 && used(candidate) >= Math.min(3, marks.size())) {
        break;
      }
    }
    return best;
  }

  /**
   * After {@link #onFiducials} found nothing that holds: the map of a view from the side, on which
   * two fiducials agree with a third one that foreshortening moved; null when the parts do not
   * stand where such a map has them.
   */
  public @Nullable Registered oblique() {
    Evidence fewer = new Evidence(sites, 40);
    Evidence evidence = new Evidence(sites, 150);
    if (!evidence.many()) {
      return null;
    }
    Registered best = null;
    double most = OBLIQUE_EVIDENCE;
    for (MapSearch.Rough r : roughs) {
      List<Seen> seen = read(r.map(), 1.2);
      List<Seen> read = seen.stream().filter(s -> s.reading != null).limit(2).toList();
      if (marks.size() < 3 || read.size() < 2) {
        continue;
      }
      for (Seen third : seen) {
        if (read.contains(third)) {
          continue;
        }
        for (MapFit fit : foreshortened(r, read, third.mark)) {
          PanelToPicture map = new PanelToPicture(fit.h, lens);
          if (fewer.of(picture, map) < OBLIQUE_EVIDENCE / 2) {
            continue;
          }
          double e = evidence.of(picture, map);
          if (e > most && Double.isFinite(e)) {
            most = e;
            best = registered(seen, List.of(), List.of(), List.of(), fit);
          }
        }
      }
    }
    return best;
  }

  /** Affine maps through two fiducials and every spot that may be the third. */
  private List<MapFit> foreshortened(MapSearch.Rough rough, List<Seen> read, KnownMark third) {
    double[] q = rough.map().at(third.xMm(), third.yMm());
    double reach = 0;
    for (Seen s : read) {
      reach = Math.max(reach, Math.hypot(third.xMm() - s.mark.xMm(), third.yMm() - s.mark.yMm()));
    }
    List<MapFit> out = new ArrayList<>();
    for (Blobs.Spot s : features.spots()) {
      boolean near = Math.hypot(s.x() - q[0], s.y() - q[1]) < 0.4 * reach * rough.pxPerMm();
      double d = s.diameter() / rough.pxPerMm();
      boolean size = Double.isNaN(third.diameterMm()) || Math.abs(d / third.diameterMm() - 1) < 0.8;
      if (near && size) {
        List<MapFit.Pair> pairs =
            List.of(
                pair(read.get(0)),
                pair(read.get(1)),
                new MapFit.Pair(third.xMm(), third.yMm(), s.x(), s.y(), 1));
        MapFit fit = MapFit.fit(pairs, MapFamily.AFFINE, rough.mirrored(), 1);
        if (fit != null) {
          out.add(fit);
        }
      }
    }
    return out;
  }

  private static long used(Registered r) {
    return r.report.marks().stream().filter(MarkReport::used).count();
  }

  /** Share of a dozen parts that stand where the map has them, by their outline. */
  public double partScore(PanelToPicture map) {
    List<Sites.Site> sample = new ArrayList<>(Sites.sample(sites, 10));
    sample.sort(Sites.smallestFirst());
    PoseReader reader = new PoseReader(picture, map, PoseReader.REACH_MM);
    int few = Math.min(FEW_PARTS, sample.size());
    double first = scores(reader, sample.subList(0, few));
    // Where half of the parts are in place, none of six is seen with a probability of 1.6 %.
    return first == 0
        ? 0
        : (first + scores(reader, sample.subList(few, sample.size()))) / sample.size();
  }

  private static double scores(PoseReader reader, List<Sites.Site> some) {
    return some.parallelStream()
        .map(s -> reader.glance(s.type(), s.nominal(), 1))
        .mapToDouble(p -> p.status() == ReadingStatus.FOUND ? p.score() : 0)
        .sum();
  }

  private @Nullable Registered settle(MapSearch.Rough rough) {
    List<Seen> seen = read(rough.map(), 1.2);
    Registered first = fit(seen, rough.mirrored());
    if (first == null) {
      return null;
    }
    // Again from the better map: a mark outside the first reach may now be found.
    List<Seen> again = read(first.map, 0.4);
    Registered second = fit(again, rough.mirrored());
    if (second == null) {
      return first;
    }
    boolean unchecked =
        second.report.family() == MapFamily.HOMOGRAPHY && second.report.redundancy() == 0;
    return unchecked
        ? withoutOne(second, again, rough.mirrored())
        : withPerspective(second, again, rough.mirrored());
  }

  /**
   * Of four fiducials any one may be a wrong spot: a perspective always takes it in. Where three
   * agree on a similarity and parts stand nearer to their places by it, the fourth is left out.
   */
  private Registered withoutOne(Registered by, List<Seen> seen, boolean mirrored) {
    List<Seen> read = seen.stream().filter(s -> s.reading != null).toList();
    List<MapFit.Pair> all = read.stream().map(this::pair).toList();
    double floor = Math.hypot(0.05, ARTWORK_MM * scale(all));
    MapFit best = null;
    List<MapFit.Pair> agreeing = List.of();
    for (MapFit.Pair odd : all) {
      List<MapFit.Pair> three = all.stream().filter(p -> p != odd).toList();
      MapFit fit = MapFit.fit(three, MapFamily.SIMILARITY, mirrored, floor);
      if (fit == null || fit.rssPx2 > AGREE * AGREE * fit.redundancy * floor * floor) {
        continue;
      }
      if (best == null || fit.rssPx2 < best.rssPx2) {
        best = fit;
        agreeing = three;
      }
    }
    if (best == null) {
      return by;
    }
    Registered other = registered(seen, read, all, agreeing, best);
    return partsOff(other.map) < partsOff(by.map) ? other : by;
  }

  /**
   * Where all but one of four fiducials and more agree on a map, the odd one may be the one that
   * shows the perspective: no other fiducial can tell then, but parts can, by standing nearer to
   * their places.
   */
  private Registered withPerspective(Registered by, List<Seen> seen, boolean mirrored) {
    long used = used(by);
    if (used < 3 || used == marks.size()) {
      return by;
    }
    List<Seen> wide = new ArrayList<>();
    List<Seen> anew = read(by.map, WIDE_MM);
    for (int i = 0; i < seen.size(); i++) {
      wide.add(by.report.marks().get(i).used() ? seen.get(i) : anew.get(i));
    }
    List<Seen> read = wide.stream().filter(s -> s.reading != null).toList();
    if (read.size() < 4) {
      return by;
    }
    List<MapFit.Pair> all = read.stream().map(this::pair).toList();
    MapFit fit =
        MapFit.fit(all, MapFamily.HOMOGRAPHY, mirrored, Math.hypot(0.05, ARTWORK_MM * scale(all)));
    if (fit == null) {
      return by;
    }
    Registered other = registered(wide, read, all, all, fit);
    return partsOff(other.map) < NEARER * partsOff(by.map) ? other : by;
  }

  /** How far some ten parts stand off their places, median, mm; infinite where few are seen. */
  private double partsOff(PanelToPicture map) {
    PoseReader reader = new PoseReader(picture, map, PoseReader.REACH_MM);
    double[] off =
        Sites.sample(sites, 10).parallelStream()
            .map(
                s -> {
                  PartPose p = reader.glance(s.type(), s.nominal(), 1);
                  Pose q = p.status() == ReadingStatus.FOUND ? p.pose() : null;
                  return q == null
                      ? Double.NaN
                      : Math.hypot(q.xMm() - s.nominal().xMm(), q.yMm() - s.nominal().yMm());
                })
            .mapToDouble(Double::doubleValue)
            .filter(d -> !Double.isNaN(d))
            .sorted()
            .toArray();
    return off.length < 4 ? Double.POSITIVE_INFINITY : off[off.length / 2];
  }

  /** Fiducials that are plainly seen near where a good map has them. */
  List<Seen> near(PanelToPicture map, double reachMm) {
    return read(map, reachMm).stream()
        .map(s -> s.reading != null && s.reading.support() < PLAIN ? new Seen(s.mark, null) : s)
        .toList();
  }

  /**
   * What became of each fiducial on a map.
   *
   * @param used whether the map rests on those that were read
   */
  List<MarkReport> reports(List<Seen> seen, PanelToPicture map, boolean used) {
    return seen.stream().map(s -> report(s, map, used && s.reading != null)).toList();
  }

  private List<Seen> read(PanelToPicture map, double reachMm) {
    MarkReader reader = new MarkReader(picture, map);
    List<Seen> out = new ArrayList<>();
    for (KnownMark m : marks) {
      double[] q = map.at(m.xMm(), m.yMm());
      if (!picture.holds(q[0], q[1])) {
        out.add(new Seen(m, null));
        continue;
      }
      double ppm = map.scaleAt(m.xMm(), m.yMm());
      out.add(new Seen(m, reader.read(m.xMm(), m.yMm(), sizes(m, q, ppm, reachMm), reachMm)));
    }
    return out;
  }

  private double[] sizes(KnownMark m, double[] q, double ppm, double reachMm) {
    if (!Double.isNaN(m.diameterMm())) {
      return new double[] {m.diameterMm()};
    }
    List<Double> d = new ArrayList<>();
    for (Blobs.Spot s : features.spots()) {
      if (Math.hypot(s.x() - q[0], s.y() - q[1]) < reachMm * ppm && s.diameter() < 4 * ppm) {
        d.add(s.diameter() / ppm);
      }
    }
    d.add(1.0);
    return d.stream().limit(4).mapToDouble(Double::doubleValue).toArray();
  }

  // --- fitting -----------------------------------------------------------------------------

  /** Fits the map to the marks that agree with one another. */
  @Nullable Registered fit(List<Seen> seen, boolean mirrored) {
    List<Seen> read = seen.stream().filter(s -> s.reading != null).toList();
    if (read.size() < 2) {
      return null;
    }
    List<MapFit.Pair> all = read.stream().map(this::pair).toList();
    List<MapFit.Pair> good = consistent(all, mirrored);
    if (good.size() < 2) {
      return null;
    }
    double ppm = scale(good);
    double floor = Math.hypot(0.05, ARTWORK_MM * ppm);
    MapFit fit = choose(good, mirrored, floor);
    return fit == null ? null : registered(seen, read, all, good, fit);
  }

  /** The point pair of a fiducial that was read. */
  MapFit.Pair pair(Seen s) {
    MarkReader.Reading r = java.util.Objects.requireNonNull(s.reading);
    double[] p = lens == null ? new double[] {r.x(), r.y()} : lens.undistort(r.x(), r.y());
    return new MapFit.Pair(s.mark.xMm(), s.mark.yMm(), p[0], p[1], r.u());
  }

  private static double scale(List<MapFit.Pair> p) {
    double px = 0;
    double mm = 0;
    for (MapFit.Pair a : p) {
      for (MapFit.Pair b : p) {
        px += Math.hypot(a.xPx() - b.xPx(), a.yPx() - b.yPx());
        mm += Math.hypot(a.xMm() - b.xMm(), a.yMm() - b.yMm());
      }
    }
    return px / mm;
  }

  /** The largest set of marks on which one similarity agrees to half a percent of the panel. */
  private static List<MapFit.Pair> consistent(List<MapFit.Pair> all, boolean mirrored) {
    List<MapFit.Pair> best = all.size() == 2 ? all : List.of();
    double bestRss = Double.POSITIVE_INFINITY;
    for (int i = 0; i < all.size(); i++) {
      for (int j = i + 1; j < all.size(); j++) {
        MapFit f =
            MapFit.fit(List.of(all.get(i), all.get(j)), MapFamily.SIMILARITY, mirrored, 0.05);
        if (f == null) {
          continue;
        }
        double span =
            Math.hypot(all.get(i).xPx() - all.get(j).xPx(), all.get(i).yPx() - all.get(j).yPx());
        double[] r = f.residuals(all);
        List<MapFit.Pair> in = new ArrayList<>();
        double rss = 0;
        for (int k = 0; k < r.length; k++) {
          if (r[k] < 0.01 * span + 3) {
            in.add(all.get(k));
            rss += r[k] * r[k];
          }
        }
        if (in.size() > best.size() || in.size() == best.size() && rss < bestRss) {
          best = in;
          bestRss = rss;
        }
      }
    }
    return best;
  }

  /**
   * The simplest family that the marks do not contradict. A richer one must leave redundancy and
   * pass an F test at 5 %; without redundancy it is taken only when the simpler one is plainly
   * wrong.
   */
  public static @Nullable MapFit choose(List<MapFit.Pair> pairs, boolean mirrored, double floorPx) {
    return choose(pairs, mirrored, floorPx, RICHER);
  }

  /**
   * The same for parts, whose places scatter together and not normally: only what would be strange
   * by chance, at 0.1 %, makes the map richer.
   */
  static @Nullable MapFit chooseByParts(List<MapFit.Pair> pairs, double floorPx) {
    return choose(pairs, false, floorPx, RICHER_BY_PARTS);
  }

  private static @Nullable MapFit choose(
      List<MapFit.Pair> pairs, boolean mirrored, double floorPx, double risk) {
    MapFit best = MapFit.fit(pairs, MapFamily.SIMILARITY, mirrored, floorPx);
    for (MapFamily f : List.of(MapFamily.AFFINE, MapFamily.HOMOGRAPHY)) {
      MapFit richer = MapFit.fit(pairs, f, mirrored, floorPx);
      if (richer == null || best == null) {
        continue;
      }
      if (better(best, richer, floorPx, risk)) {
        best = richer;
      }
    }
    return best;
  }

  private static boolean better(MapFit plain, MapFit richer, double floorPx, double risk) {
    int extra = plain.redundancy - richer.redundancy;
    double noise = floorPx * floorPx;
    // What is known beforehand of the noise counts like four more degrees of freedom.
    double gain = (plain.rssPx2 - richer.rssPx2) / extra;
    double left = (richer.rssPx2 + 4 * noise) / (richer.redundancy + 4);
    double p =
        1
            - new org.apache.commons.math3.distribution.FDistribution(
                    null, extra, richer.redundancy + 4)
                .cumulativeProbability(Math.max(0, gain / left));
    return p < (richer.redundancy > 0 ? risk : risk / 10);
  }

  private Registered registered(
      List<Seen> seen, List<Seen> read, List<MapFit.Pair> all, List<MapFit.Pair> good, MapFit fit) {
    PanelToPicture map = new PanelToPicture(fit.h, lens);
    double[] b = Sites.bounds(sites, marks);
    double cx = (b[0] + b[2]) / 2;
    double cy = (b[1] + b[3]) / 2;
    double tilt = tilt(map, cx, cy);
    List<MarkReport> reports = new ArrayList<>();
    for (Seen s : seen) {
      int k = read.indexOf(s);
      boolean used = k >= 0 && good.contains(all.get(k));
      reports.add(report(s, map, used));
    }
    List<String> notes = new ArrayList<>();
    if (fit.mirrored) {
      notes.add(MapReport.MIRRORED);
    }
    if (fit.redundancy == 0) {
      notes.add(
          "the map has no redundancy: "
              + good.size()
              + " fiducials fix it, a wrong one cannot be noticed");
    }
    double scale = map.scaleAt(cx, cy);
    MapReport report =
        new MapReport(
            picture.name(),
            RegisteredOn.FIDUCIALS,
            fit.family,
            scale,
            direction(map, cx, cy),
            fit.mirrored,
            tilt,
            fit.redundancy > 0 ? Math.sqrt(fit.rssPx2 / good.size()) / scale : Double.NaN,
            fit.redundancy,
            Math.sqrt(fit.variance(cx, cy)) / scale,
            reports,
            notes);
    return new Registered(map, fit, good, report, 1);
  }

  private MarkReport report(Seen s, PanelToPicture map, boolean used) {
    MarkReader.Reading r = s.reading;
    if (r == null) {
      return new MarkReport(
          s.mark.name(),
          s.mark.fiducial().name(),
          s.mark.board(),
          false,
          Double.NaN,
          Double.NaN,
          Double.NaN,
          Double.NaN,
          "not found");
    }
    double[] at = map.toPanel(r.x(), r.y());
    double off = Math.hypot(at[0] - s.mark.xMm(), at[1] - s.mark.yMm());
    double u = r.u() / map.scaleAt(s.mark.xMm(), s.mark.yMm());
    String note =
        used
            ? r.shape()
            : String.format(Locale.ROOT, "%s, %.2f mm from where the map has it", r.shape(), off);
    return new MarkReport(
        s.mark.name(), s.mark.fiducial().name(), s.mark.board(), used, at[0], at[1], u, off, note);
  }

  /** Tilt of the view: the foreshortening of one direction against the other, degrees. */
  static double tilt(PanelToPicture map, double xMm, double yMm) {
    double[] j = map.jacobian(xMm, yMm, 0);
    double e = (j[0] + j[3]) / 2;
    double f = (j[0] - j[3]) / 2;
    double g = (j[2] + j[1]) / 2;
    double h = (j[2] - j[1]) / 2;
    double q = Math.hypot(e, h);
    double r = Math.hypot(f, g);
    double ratio = Math.abs(q - r) / (q + r);
    return Math.toDegrees(Math.acos(Math.min(1, ratio)));
  }

  /** Direction of the panel's x in the picture, counter-clockwise as seen, degrees. */
  static double direction(PanelToPicture map, double xMm, double yMm) {
    double[] j = map.jacobian(xMm, yMm, 0);
    return Math.toDegrees(Math.atan2(-j[2], j[0]));
  }

  /** Refuses a view from the side. */
  public static void refuseOblique(String name, double tiltDeg) {
    if (tiltDeg > MAX_TILT_DEG) {
      throw new InputException(
          Problem.of(
              name,
              String.format(
                  Locale.ROOT,
                  "the picture was taken %.0f degrees off the vertical; at most %.0f can be"
                      + " measured",
                  tiltDeg,
                  MAX_TILT_DEG),
              "take it from straight above"));
    }
  }
}
