package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.Consensus;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapFit;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.OutlineFit;
import org.padtrue.imaging.pose.Sites;
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

  /** A similarity is taken for more than a shift where it has so many times as many agree. */
  private static final double RICHER = 1.25;

  /** Looks at most so many times from a better map. */
  private static final int ROUNDS = 4;

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

    /** The same with its part where the parts' own map has it, seen by the map of the lands. */
    Pattern under(PanelToPicture parts, PanelToPicture lands) {
      if (empty) {
        return this;
      }
      double[] px = parts.at(site.nominal().xMm(), site.nominal().yMm());
      double[] at = lands.toPanel(px[0], px[1]);
      return covered(site, at[0] - site.nominal().xMm(), at[1] - site.nominal().yMm());
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
   * @param pairs panel and picture points; none where they do not hold a map
   * @param agree how many agree
   * @param seen how many were seen, agreeing or not
   * @param wider how much more than these all that were seen scatter: what a fit to the agreeing
   *     ones says of itself is too good by that
   * @param asideMm how far the middle of all that were seen is from that of the agreeing ones
   */
  record Held(List<MapFit.Pair> pairs, int agree, int seen, double wider, double asideMm) {
    static final Held NOTHING = new Held(List.of(), 0, 0, 1, 0);

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
   * @param map from the parts: right but for what all of them share, such as how they were placed
   */
  Held holding(PanelToPicture map) {
    if (patterns.size() < FEWEST) {
      return Held.NOTHING;
    }
    Agreed best = agreed(map, look(map, patterns));
    if (best.count() < PLENTY * patterns.size()) {
      best = beside(map, best);
    }
    for (int i = 0; i < ROUNDS && best.count() >= FEWEST; i++) {
      Agreed next = again(map, best);
      boolean more = next.count() > best.count();
      best = next.count() >= best.count() || i == 0 && next.count() >= FEWEST ? next : best;
      if (!more) {
        break;
      }
    }
    return best.count() < FEWEST || best.byChance() > CHANCE
        ? new Held(List.of(), best.count(), best.seen.size(), 1, 0)
        : held(best);
  }

  private Held held(Agreed a) {
    return new Held(
        a.in.stream().map(s -> pair(a.map, s)).toList(),
        a.count(),
        a.seen.size(),
        a.wider(),
        a.asideMm());
  }

  /** The best of looking a step aside, by few patterns. */
  private Agreed beside(PanelToPicture map, Agreed best) {
    List<Pattern> few = spread(patterns, FEW);
    int most = agreed(map, look(map, few)).count();
    PanelToPicture at = map;
    for (int i = -2; i <= 2; i++) {
      for (int k = -2; k <= 2; k++) {
        PanelToPicture moved = moved(map, i * STEP_MM, k * STEP_MM);
        int n = agreed(moved, look(moved, few)).count();
        if (n > most) {
          most = n;
          at = moved;
        }
      }
    }
    Agreed there = agreed(at, look(at, patterns));
    return there.count() > best.count() ? there : best;
  }

  /**
   * Looks where those that agree have the others, with the parts where they are: parts that stand
   * off together hide other stretches of their lands, and turned ones are far off at the ends.
   */
  private Agreed again(PanelToPicture parts, Agreed first) {
    PanelToPicture map = first.corrected();
    List<Pattern> uncovered =
        patterns.stream().map(p -> p.under(parts, map)).filter(Pattern::tells).toList();
    return agreed(map, look(map, uncovered));
  }

  /** The map by which panel points lie where another has them after a shift. */
  private static PanelToPicture moved(PanelToPicture map, double dxMm, double dyMm) {
    double[] shift = {1, 0, dxMm, 0, 1, dyMm, 0, 0, 1};
    return map.withHomography(Matrices.product3(map.homography(), shift));
  }

  /**
   * Patterns that agree on a shift, or a similarity, of where a map has them.
   *
   * @param map the map that was asked with
   * @param in those that agree
   * @param seen all that were seen
   */
  private record Agreed(PanelToPicture map, List<Seen> in, List<Seen> seen, Consensus consensus) {
    int count() {
      return in.size();
    }

    double byChance() {
      return consensus.byChance(Math.pow(AGREE_MM / REACH_MM, 2));
    }

    /** The map with the shift or similarity on which they agree, fitted. */
    PanelToPicture corrected() {
      if (consensus.fixing() == 1) {
        double dx = in.stream().mapToDouble(Seen::dxMm).average().orElse(0);
        double dy = in.stream().mapToDouble(Seen::dyMm).average().orElse(0);
        return moved(map, dx, dy);
      }
      MapFit fit = MapFit.fit(consensus.agreeing(), MapFamily.SIMILARITY, true, ARTWORK_MM);
      return fit == null ? map : map.withHomography(Matrices.product3(map.homography(), fit.h));
    }

    /** How much farther from the middle all stand than those that agree, medians, as a ratio. */
    double wider() {
      return Math.max(1, off(seen) / off(in));
    }

    /** Median distance from the middle of those that agree, mm. */
    private double off(List<Seen> some) {
      double x = middle(in, Seen::dxMm);
      double y = middle(in, Seen::dyMm);
      return Math.max(ARTWORK_MM, middle(some, s -> Math.hypot(s.dxMm() - x, s.dyMm() - y)));
    }

    /** How far the middle of all is from that of those that agree, mm. */
    double asideMm() {
      return Math.hypot(
          middle(seen, Seen::dxMm) - middle(in, Seen::dxMm),
          middle(seen, Seen::dyMm) - middle(in, Seen::dyMm));
    }

    private static double middle(List<Seen> some, ToDoubleFunction<Seen> of) {
      double[] d = some.stream().mapToDouble(of).sorted().toArray();
      return d[d.length / 2];
    }
  }

  /** In the panel frame, where the map's own foreshortening does not count. */
  private static Agreed agreed(PanelToPicture map, List<Seen> seen) {
    Map<MapFit.Pair, Seen> by = new LinkedHashMap<>();
    for (Seen s : seen) {
      Pose n = s.site.nominal();
      by.put(new MapFit.Pair(n.xMm(), n.yMm(), s.pose.xMm(), s.pose.yMm(), s.uMm), s);
    }
    List<MapFit.Pair> all = List.copyOf(by.keySet());
    Consensus shift = Consensus.ofShift(all, AGREE_MM);
    Consensus similar = Consensus.of(all, true, AGREE_MM);
    // Two more degrees of freedom take in some that scatter; a panel placed turned shows in many.
    int least = Math.max(FEWEST, (int) Math.ceil(RICHER * shift.agreeing().size()) + 1);
    boolean plain = shift.agreeing().size() >= FEWEST && similar.agreeing().size() < least;
    Consensus c = plain ? shift : similar;
    List<Seen> in = c.agreeing().stream().map(by::get).map(Objects::requireNonNull).toList();
    return new Agreed(map, in, seen, c);
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

  private List<Seen> look(PanelToPicture map, List<Pattern> some) {
    return some.parallelStream()
        .map(p -> seen(map, p))
        .filter(Objects::nonNull)
        .map(s -> (Seen) s)
        .toList();
  }

  private @Nullable Seen seen(PanelToPicture map, Pattern p) {
    Pose from = p.site.nominal();
    Outline o = p.exposed;
    double ppm = map.scaleAt(from.xMm(), from.yMm());
    double reach = ppm * (Math.hypot(o.halfLengthMm(), o.halfWidthMm()) + 0.6) + 8;
    double[] q = map.at(from.xMm(), from.yMm());
    Plane plane = picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
    OutlineFit.Result f =
        new OutlineFit(plane, map, o, List.of(), from).fit(from, Math.max(1, 0.08 * ppm), 1);
    if (f == null || f.support() < SUPPORT || !allRound(f.pieces())) {
      return null;
    }
    double turned = Angles.wrap(f.pose().rotationDeg() - from.rotationDeg());
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
