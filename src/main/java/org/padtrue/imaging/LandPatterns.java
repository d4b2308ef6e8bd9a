package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Finds the centres of land patterns by those stretches of their edges that no part hides: copper
 * has its place on the panel whatever the placing did.
 */
final class LandPatterns {
  /** So many patterns hold a map, with the redundancy of as many coordinates. */
  static final int FEWEST = 4;

  /** A part may stand so far off its place and hide what its nominal outline does not, mm. */
  private static final double SHIFT_MM = 0.1;

  /** Shorter stretches than this say too little, mm. */
  private static final double SHORTEST_MM = 0.1;

  /** Patterns looked at, spread over the job. */
  private static final int SAMPLE = 150;

  private static final double SUPPORT = 0.6;

  /** Share of the edges on each side that must be seen, by length. */
  private static final double EACH_SIDE = 0.4;

  /** Patterns less precise than this hold no map, mm. */
  private static final double PRECISE_MM = 0.03;

  /** The panel's turn is known before: a pattern seen turned by more is something else, degrees. */
  private static final double TURNED_DEG = 1;

  /** Copper stands so near to where it was drawn, and solder along its edges, mm. */
  private static final double ARTWORK_MM = 0.01;

  /** Light moves all of them together by so much: maps on 50 rendered ones were off by that, px. */
  static final double LIGHT_PX = 0.05;

  /** Edges are looked for so far beside where they are expected, mm. */
  private static final double REACH_MM = 0.16;

  /** Where the lands are not where the parts have them, so far aside they are looked for, mm. */
  private static final double STEP_MM = 0.2;

  /** Patterns that agree on one map lie within this of it, mm. */
  static final double AGREE_MM = 0.03;

  /** A map that chance brings about with more than this probability is not the right one. */
  private static final double CHANCE = 0.01;

  /** Where this share of the patterns asked agree they need not be looked for elsewhere. */
  private static final double PLENTY = 0.5;

  /** Patterns that tell where to look. */
  private static final int FEW = 16;

  private final Picture picture;
  private final List<Pattern> patterns;
  private final @Nullable CameraModel lens;

  /** Where lands are, and what can be seen of them. */
  private record Pattern(Sites.Site site, Outline exposed, boolean empty) {
    static Pattern bare(Sites.Site s) {
      return new Pattern(s, LandPatterns.exposed(s.type(), List.of()), true);
    }

    /** Of a part that stands off its lands, panel frame. */
    static Pattern covered(Sites.Site s, double dxMm, double dyMm) {
      double c = Angles.cosDeg(s.nominal().rotationDeg());
      double n = Angles.sinDeg(s.nominal().rotationDeg());
      double x = c * dxMm + n * dyMm;
      double y = c * dyMm - n * dxMm;
      List<Rect> over =
          covers(s.type()).stream()
              .map(r -> new Rect(r.xMm() + x, r.yMm() + y, r.lengthMm(), r.widthMm()))
              .toList();
      return new Pattern(s, LandPatterns.exposed(s.type(), over), false);
    }

    Pattern offLands(double dxMm, double dyMm) {
      return empty ? this : covered(site, dxMm, dyMm);
    }

    boolean tells() {
      return site.type().lands().size() > 1 && bothWays(exposed);
    }
  }

  /**
   * Of a picture and what it shows.
   *
   * @param placed sites where parts stand
   * @param bare sites where lands lie bare
   * @param lens null where the picture needs no straightening
   */
  LandPatterns(
      Picture picture, List<Sites.Site> placed, List<Sites.Site> bare, @Nullable CameraModel lens) {
    this.picture = picture;
    this.lens = lens;
    List<Pattern> all = new ArrayList<>();
    bare.forEach(s -> all.add(Pattern.bare(s)));
    placed.forEach(s -> all.add(Pattern.covered(s, 0, 0)));
    this.patterns = spread(all.stream().filter(Pattern::tells).toList(), SAMPLE);
  }

  /**
   * A pattern that was seen.
   *
   * @param site whose lands these are
   * @param pose where they are by the map that was asked with, panel frame
   * @param uMm standard uncertainty across the worst direction, mm
   */
  record Seen(Sites.Site site, Pose pose, double uMm) {
    double dxMm() {
      return pose.xMm() - site.nominal().xMm();
    }

    double dyMm() {
      return pose.yMm() - site.nominal().yMm();
    }
  }

  /**
   * Patterns that agree.
   *
   * @param pairs panel and picture points
   * @param wider how much more than these all that were seen scatter: what a fit to the agreeing
   *     ones says of itself is too good by that
   */
  record Held(List<MapFit.Pair> pairs, double wider) {
    static final Held NOTHING = new Held(List.of(), 1);

    Held {
      pairs = List.copyOf(pairs);
    }
  }

  /** Smallest standard error believed of a pattern, px. */
  static double floorPx(PanelToPicture map, double[] bounds) {
    return ARTWORK_MM * map.scaleAt(bounds[0], bounds[1]);
  }

  /**
   * Patterns that agree with one another, more than chance would have it; none where they do not.
   *
   * @param map from the parts: right but for what all of them share
   * @param uMm standard uncertainty of the map's turn and scale, anywhere on the panel, mm
   */
  Held holding(PanelToPicture map, double uMm) {
    if (patterns.size() < FEWEST) {
      return Held.NOTHING;
    }
    double toleranceMm = Math.hypot(AGREE_MM, 2 * uMm);
    Agreed best = agreed(near(map, patterns, 0, 0), toleranceMm);
    if (best.count() < PLENTY * patterns.size()) {
      List<Pattern> few = spread(patterns, FEW);
      int most = agreed(near(map, few, 0, 0), toleranceMm).count();
      double[] at = {0, 0};
      for (int i = -2; i <= 2; i++) {
        for (int k = -2; k <= 2; k++) {
          int n = agreed(near(map, few, i * STEP_MM, k * STEP_MM), toleranceMm).count();
          if (n > most) {
            most = n;
            at = new double[] {i * STEP_MM, k * STEP_MM};
          }
        }
      }
      Agreed there = agreed(near(map, patterns, at[0], at[1]), toleranceMm);
      best = there.count() > best.count() ? there : best;
    }
    best = uncovered(map, best, toleranceMm);
    double share = Math.pow(AGREE_MM / REACH_MM, 2);
    return best.count() < FEWEST || best.byChance() > CHANCE
        ? Held.NOTHING
        : new Held(best.seen.stream().map(s -> pair(map, s)).toList(), best.wider());
  }

  /**
   * Where the parts together stand off their lands they hide other stretches of them: looked at
   * once more with the parts where they are.
   */
  private Agreed uncovered(PanelToPicture map, Agreed first, double toleranceMm) {
    double dx = first.seen.stream().mapToDouble(Seen::dxMm).average().orElse(0);
    double dy = first.seen.stream().mapToDouble(Seen::dyMm).average().orElse(0);
    if (Math.hypot(dx, dy) < SHIFT_MM / 2) {
      return first;
    }
    List<Pattern> moved =
        patterns.stream().map(p -> p.offLands(-dx, -dy)).filter(Pattern::tells).toList();
    Agreed again = agreed(near(map, moved, dx, dy), toleranceMm);
    return again.count() < FEWEST ? first : again;
  }

  /**
   * Patterns that agree on where all of them are beside where a map has them, and the bound on the
   * probability that chance has as many agree: each may lead, the others follow it or not.
   */
  private record Agreed(List<Seen> seen, List<Seen> of, double toleranceMm) {
    int count() {
      return seen.size();
    }

    /** How much farther from the middle all stand than those that agree, medians, as a ratio. */
    double wider() {
      double x = seen.stream().mapToDouble(Seen::dxMm).average().orElse(0);
      double y = seen.stream().mapToDouble(Seen::dyMm).average().orElse(0);
      return Math.max(1, off(of, x, y) / off(seen, x, y));
    }

    private static double off(List<Seen> some, double x, double y) {
      double[] d =
          some.stream().mapToDouble(s -> Math.hypot(s.dxMm() - x, s.dyMm() - y)).sorted().toArray();
      return Math.max(ARTWORK_MM, d[d.length / 2]);
    }

    double byChance() {
      double share = Math.min(1, Math.pow(toleranceMm / REACH_MM, 2));
      return count() < 2
          ? 1
          : of.size()
              * (1
                  - new BinomialDistribution(null, of.size() - 1, share)
                      .cumulativeProbability(count() - 2));
    }
  }

  private static Agreed agreed(List<Seen> seen, double toleranceMm) {
    List<Seen> best = List.of();
    for (Seen lead : seen) {
      List<Seen> in =
          seen.stream()
              .filter(s -> Math.hypot(s.dxMm() - lead.dxMm(), s.dyMm() - lead.dyMm()) < toleranceMm)
              .toList();
      best = in.size() > best.size() ? in : best;
    }
    return new Agreed(best, seen, toleranceMm);
  }

  private MapFit.Pair pair(PanelToPicture map, Seen s) {
    double[] q = map.at(s.pose.xMm(), s.pose.yMm());
    double[] p = lens == null ? q : lens.undistort(q[0], q[1]);
    double u = Math.hypot(s.uMm, ARTWORK_MM) * map.scaleAt(s.pose.xMm(), s.pose.yMm());
    Pose nominal = s.site.nominal();
    return new MapFit.Pair(nominal.xMm(), nominal.yMm(), p[0], p[1], u);
  }

  /** At most count of them, spread over the list. */
  private static List<Pattern> spread(List<Pattern> all, int count) {
    List<Pattern> out = new ArrayList<>();
    double stride = Math.max(1, all.size() / (double) count);
    for (double i = 0; i < all.size() && out.size() < count; i += stride) {
      out.add(all.get((int) i));
    }
    return out;
  }

  /**
   * Patterns seen near where a map has them.
   *
   * @param dxMm where they are looked for, beside their nominal place
   * @param dyMm likewise
   */
  List<Seen> near(PanelToPicture map, double dxMm, double dyMm) {
    return near(map, patterns, dxMm, dyMm);
  }

  private List<Seen> near(PanelToPicture map, List<Pattern> some, double dxMm, double dyMm) {
    return some.parallelStream()
        .map(p -> seen(map, p, dxMm, dyMm))
        .filter(Objects::nonNull)
        .map(s -> (Seen) s)
        .toList();
  }

  private @Nullable Seen seen(PanelToPicture map, Pattern p, double dxMm, double dyMm) {
    Pose nominal = p.site.nominal();
    Outline o = p.exposed;
    Pose from = new Pose(nominal.xMm() + dxMm, nominal.yMm() + dyMm, nominal.rotationDeg());
    double ppm = map.scaleAt(from.xMm(), from.yMm());
    double reach = ppm * (Math.hypot(o.halfLengthMm(), o.halfWidthMm()) + 0.6) + 8;
    double[] q = map.at(from.xMm(), from.yMm());
    Plane plane = picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
    OutlineFit.Result f =
        new OutlineFit(plane, map, o, List.of(), from).fit(from, Math.max(1, 0.08 * ppm), 1);
    if (f == null || f.support() < SUPPORT || !allRound(f.pieces())) {
      return null;
    }
    double turned = Angles.wrap(f.pose().rotationDeg() - nominal.rotationDeg());
    double u = worst(f.covariance());
    return u < PRECISE_MM && Math.abs(turned) < TURNED_DEG ? new Seen(p.site, f.pose(), u) : null;
  }

  /**
   * Whether edges are seen on all four sides: where those of one side lie in shadow or under a
   * part, the others are fitted by lands of another size in another place.
   */
  private static boolean allRound(List<OutlineFit.Piece> pieces) {
    double[] all = new double[4];
    double[] seen = new double[4];
    for (OutlineFit.Piece p : pieces) {
      int side = p.edge.nx() != 0 ? (1 + p.edge.nx()) / 2 : 2 + (1 + p.edge.ny()) / 2;
      all[side] += p.lengthMm;
      seen[side] += p.seen.usable() ? p.lengthMm * p.weight : 0;
    }
    for (int i = 0; i < 4; i++) {
      if (seen[i] < EACH_SIDE * all[i]) {
        return false;
      }
    }
    return true;
  }

  /** Standard deviation in the direction that is known least. */
  private static double worst(double[][] v) {
    double mean = (v[0][0] + v[1][1]) / 2;
    double half = Math.hypot((v[0][0] - v[1][1]) / 2, v[0][1]);
    return Math.sqrt(mean + half);
  }

  private static boolean bothWays(Outline o) {
    boolean x = false;
    boolean y = false;
    for (Outline.Edge e : o.edges()) {
      x |= e.nx() != 0;
      y |= e.ny() != 0;
    }
    return x && y && o.edges().size() >= 4;
  }

  private static List<Rect> covers(PartType type) {
    List<Rect> over = new ArrayList<>(type.terminations());
    if (type.body() != null) {
      over.add(type.body());
    }
    return over;
  }

  /** The edges of a type's lands that what lies over them does not hide. */
  private static Outline exposed(PartType type, List<Rect> over) {
    Outline all = Outline.ofRects(type.lands());
    List<Outline.Edge> seen = new ArrayList<>();
    for (Outline.Edge e : all.edges()) {
      for (double[] s : bare(e, over)) {
        seen.add(part(e, s, over));
      }
    }
    return new Outline(
        seen, all.rects(), all.halfLengthMm(), all.halfWidthMm(), all.symmetry(), false);
  }

  /** Stretches {from, to} along an edge that no rectangle, grown by {@link #SHIFT_MM}, covers. */
  private static List<double[]> bare(Outline.Edge e, List<Rect> over) {
    boolean alongY = e.nx() != 0;
    double middle = alongY ? e.yMm() : e.xMm();
    List<double[]> left = new ArrayList<>();
    left.add(new double[] {middle - e.lengthMm() / 2, middle + e.lengthMm() / 2});
    for (Rect r : over) {
      double across = alongY ? e.xMm() - r.xMm() : e.yMm() - r.yMm();
      double halfAcross = (alongY ? r.lengthMm() : r.widthMm()) / 2 + SHIFT_MM;
      if (Math.abs(across) >= halfAcross) {
        continue;
      }
      double at = alongY ? r.yMm() : r.xMm();
      double half = (alongY ? r.widthMm() : r.lengthMm()) / 2 + SHIFT_MM;
      List<double[]> next = new ArrayList<>();
      for (double[] s : left) {
        next.add(new double[] {s[0], Math.min(s[1], at - half)});
        next.add(new double[] {Math.max(s[0], at + half), s[1]});
      }
      left = next.stream().filter(s -> s[1] - s[0] > 0).toList();
    }
    return left.stream().filter(s -> s[1] - s[0] > SHORTEST_MM).toList();
  }

  private static Outline.Edge part(Outline.Edge e, double[] s, List<Rect> over) {
    double middle = (s[0] + s[1]) / 2;
    double x = e.nx() != 0 ? e.xMm() : middle;
    double y = e.nx() != 0 ? middle : e.yMm();
    double inner = Math.min(e.innerGapMm(), clear(over, x, y, -e.nx(), -e.ny()));
    double outer = Math.min(e.outerGapMm(), clear(over, x, y, e.nx(), e.ny()));
    return new Outline.Edge(
        x, y, e.nx(), e.ny(), s[1] - s[0], e.group(), e.heightMm(), inner, outer, e.body());
  }

  /** How far it is to the next rectangle in a direction, mm. */
  private static double clear(List<Rect> over, double x, double y, int nx, int ny) {
    double least = Double.POSITIVE_INFINITY;
    for (Rect r : over) {
      double along = nx * (r.xMm() - x) + ny * (r.yMm() - y);
      double across = Math.abs(ny * (r.xMm() - x) + nx * (r.yMm() - y));
      double halfAlong = (nx != 0 ? r.lengthMm() : r.widthMm()) / 2;
      double halfAcross = (nx != 0 ? r.widthMm() : r.lengthMm()) / 2;
      if (across < halfAcross && along > -halfAlong) {
        least = Math.min(least, Math.max(0, along - halfAlong));
      }
    }
    return least;
  }
}
