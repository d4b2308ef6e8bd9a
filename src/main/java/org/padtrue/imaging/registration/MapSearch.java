package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Blobs;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Sites;

/**
 * Finds rough maps from panel to picture by trying which spots may be which fiducials: two spots
 * fix a similarity, the other fiducials and the parts vote on it.
 */
public final class MapSearch {
  /**
   * A rough map.
   *
   * @param h similarity, 9 numbers
   * @param mirrored seen from behind
   * @param matched fiducials at which a spot lies
   * @param evidence of the parts
   */
  record Rough(double[] h, boolean mirrored, int matched, double evidence) {
    PanelToPicture map() {
      return new PanelToPicture(h, null);
    }

    double pxPerMm() {
      return Math.hypot(h[0], h[3]);
    }

    double angleDeg() {
      return Math.toDegrees(Math.atan2(mirrored ? h[3] : -h[3], h[0]));
    }

    boolean like(Rough o) {
      double turn = Math.abs(org.padtrue.quantity.Angles.wrap(angleDeg() - o.angleDeg()));
      double scale = Math.abs(Math.log(pxPerMm() / o.pxPerMm()));
      return mirrored == o.mirrored && turn < 10 && scale < 0.08;
    }
  }

  /** Evidence that only the true map reaches. */
  public static final double CLEAR = 0.3;

  private static final int KEEP = 400;

  /** What the first parts must show for two spots among many to be believed. */
  private static final double LEAST_SEEN = 0.1;

  /** Parts asked about every rough map, before the best are asked about all. */
  private static final int FIRST_LOOK = 14;

  private final List<KnownMark> marks;
  private final Features features;
  private final double minScale;
  private final double maxScale;
  private final Map<Long, List<Blobs.Spot>> grid = new HashMap<>();
  private static final double CELL = 48;

  private final Picture picture;
  private final Evidence firstLook;

  MapSearch(Features features, List<KnownMark> marks, List<Sites.Site> sites) {
    this.features = features;
    this.picture = features.picture();
    this.firstLook = new Evidence(sites, FIRST_LOOK);
    this.marks = marks;
    double[] limits = scaleLimits(picture, Sites.bounds(sites, marks));
    this.minScale = limits[0];
    this.maxScale = limits[1];
    for (Blobs.Spot s : features.spots()) {
      grid.computeIfAbsent(cell(s.x(), s.y()), k -> new ArrayList<>()).add(s);
    }
  }

  /** Scales at which the panel fits the picture and still fills a good part of it, px per mm. */
  static double[] scaleLimits(Picture p, double[] bounds) {
    double w = Math.max(1, bounds[2] - bounds[0]);
    double h = Math.max(1, bounds[3] - bounds[1]);
    double fit =
        Math.min(
            Math.max(p.width(), p.height()) / Math.max(w, h),
            Math.min(p.width(), p.height()) / Math.min(w, h));
    return new double[] {0.2 * fit, 1.15 * fit};
  }

  /** Rough maps, the likeliest first; distinct in turn, scale and handedness. */
  List<Rough> find(Evidence evidence) {
    int wanted = Math.min(3, marks.size());
    List<Rough> strict = find(evidence, wanted, features.spots());
    boolean sure = !strict.isEmpty() && (!evidence.many() || strict.get(0).evidence > CLEAR);
    if (sure || wanted < 3) {
      return strict;
    }
    // Only two of three or more may be there to be seen; then the parts must decide.
    List<Rough> loose = find(evidence, 2, features.likelySpots());
    return loose.isEmpty() || !strict.isEmpty() && strict.get(0).evidence > loose.get(0).evidence
        ? strict
        : loose;
  }

  private List<Rough> find(Evidence evidence, int wanted, List<Blobs.Spot> spots) {
    List<Rough> all = new ArrayList<>();
    for (int[] pair : pairs()) {
      all.addAll(
          spots.parallelStream()
              .flatMap(a -> considered(pair, a, spots, wanted).stream())
              .toList());
      trim(all, KEEP, firstLook);
    }
    List<Rough> judged = new ArrayList<>();
    for (Rough r : all) {
      double e = evidence.empty() ? r.evidence : evidence.of(picture, r.map());
      judged.add(new Rough(r.h, r.mirrored, r.matched, e));
    }
    judged.sort(likeliest(evidence));
    List<Rough> out = new ArrayList<>();
    for (Rough r : judged) {
      if (out.stream().noneMatch(o -> o.like(r))) {
        out.add(r);
      }
      if (out.size() == 6) {
        break;
      }
    }
    return out;
  }

  private List<Rough> considered(int[] pair, Blobs.Spot a, List<Blobs.Spot> spots, int wanted) {
    List<Rough> out = new ArrayList<>();
    for (Blobs.Spot b : spots) {
      if (a != b) {
        consider(pair, a, b, wanted, out);
      }
    }
    trim(out, KEEP, firstLook);
    return out;
  }

  private static Comparator<Rough> likeliest(Evidence by) {
    double each = by.worthOfAFiducial();
    return Comparator.comparingDouble((Rough r) -> -r.evidence - each * r.matched);
  }

  private static void trim(List<Rough> all, int count, Evidence by) {
    if (all.size() > count) {
      all.sort(likeliest(by));
      all.subList(count, all.size()).clear();
    }
  }

  /** Pairs of fiducials, the farthest apart first, at most six. */
  private List<int[]> pairs() {
    List<int[]> out = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      for (int j = i + 1; j < marks.size(); j++) {
        out.add(new int[] {i, j});
      }
    }
    out.sort(Comparator.comparingDouble(q -> -distance(marks.get(q[0]), marks.get(q[1]))));
    return out.size() > 6 ? out.subList(0, 6) : out;
  }

  private static double distance(KnownMark a, KnownMark b) {
    return Math.hypot(a.xMm() - b.xMm(), a.yMm() - b.yMm());
  }

  private void consider(int[] pair, Blobs.Spot a, Blobs.Spot b, int wanted, List<Rough> out) {
    KnownMark m = marks.get(pair[0]);
    KnownMark n = marks.get(pair[1]);
    double d = distance(m, n);
    double px = Math.hypot(a.x() - b.x(), a.y() - b.y());
    double scale = px / d;
    if (!(d > 0) || scale < minScale || scale > maxScale) {
      return;
    }
    if (!fits(a, m, scale) || !fits(b, n, scale) || !sameSize(a, b, m, n)) {
      return;
    }
    for (int flip = 0; flip < 2; flip++) {
      double[] h = similarity(m, n, a, b, flip == 1);
      int matched = 2;
      double quality = a.quality() + b.quality();
      for (int k = 0; k < marks.size(); k++) {
        if (k != pair[0] && k != pair[1]) {
          double q = match(h, marks.get(k), scale, 3 + 0.006 * px);
          matched += q > 0 ? 1 : 0;
          quality += q;
        }
      }
      if (matched >= wanted) {
        double least = matched < Math.min(3, marks.size()) ? LEAST_SEEN : Double.NEGATIVE_INFINITY;
        double seen =
            firstLook.empty()
                ? quality / matched
                : firstLook.ofAtLeast(picture, new PanelToPicture(h, null), least);
        if (seen > Double.NEGATIVE_INFINITY) {
          out.add(new Rough(h, flip == 1, matched, seen));
        }
      }
    }
  }

  /** A spot may be the mark itself or the opening around it. */
  static boolean fits(Blobs.Spot s, KnownMark m, double scale) {
    double d = s.diameter() / scale;
    return Double.isNaN(m.diameterMm())
        ? d > 0.25 && d < 5
        : d > 0.6 * m.diameterMm() && d < 3.2 * m.diameterMm();
  }

  private static boolean sameSize(Blobs.Spot a, Blobs.Spot b, KnownMark m, KnownMark n) {
    if (Double.isNaN(m.diameterMm()) != Double.isNaN(n.diameterMm())) {
      return true;
    }
    double want = Double.isNaN(m.diameterMm()) ? 1 : m.diameterMm() / n.diameterMm();
    double is = a.diameter() / b.diameter() / want;
    return is > 0.6 && is < 1.7;
  }

  private double match(double[] h, KnownMark m, double scale, double tolerance) {
    double x = h[0] * m.xMm() + h[1] * m.yMm() + h[2];
    double y = h[3] * m.xMm() + h[4] * m.yMm() + h[5];
    double best = 0;
    int reach = (int) Math.ceil(tolerance / CELL);
    int cx = (int) Math.floor(x / CELL);
    int cy = (int) Math.floor(y / CELL);
    for (int i = -reach; i <= reach; i++) {
      for (int j = -reach; j <= reach; j++) {
        List<Blobs.Spot> here = grid.get(key(cx + i, cy + j));
        if (here == null) {
          continue;
        }
        for (Blobs.Spot s : here) {
          boolean near = Math.hypot(s.x() - x, s.y() - y) < tolerance;
          if (near && fits(s, m, scale)) {
            best = Math.max(best, s.quality());
          }
        }
      }
    }
    return best;
  }

  private static long cell(double x, double y) {
    return key((int) Math.floor(x / CELL), (int) Math.floor(y / CELL));
  }

  private static long key(int cx, int cy) {
    return ((long) cx << 32) ^ (cy & 0xFFFFFFFFL);
  }

  private static double[] similarity(
      KnownMark m, KnownMark n, Blobs.Spot a, Blobs.Spot b, boolean mirrored) {
    double sy = mirrored ? 1 : -1;
    double ux = n.xMm() - m.xMm();
    double uy = n.yMm() - m.yMm();
    double vx = b.x() - a.x();
    double vy = sy * (b.y() - a.y());
    double d2 = ux * ux + uy * uy;
    double c = (ux * vx + uy * vy) / d2;
    double s = (ux * vy - uy * vx) / d2;
    double tx = a.x() - (c * m.xMm() - s * m.yMm());
    double ty = a.y() - sy * (s * m.xMm() + c * m.yMm());
    return new double[] {c, -s, tx, sy * s, sy * c, ty, 0, 0, 1};
  }
}
