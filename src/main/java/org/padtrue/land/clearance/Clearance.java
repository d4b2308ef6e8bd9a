package org.padtrue.land.clearance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.strtree.STRtree;
import org.padtrue.land.LandFit;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * Gaps between neighbours on one panel, across board edges too.
 *
 * <p>Outlines with their height ranges ({@link PartType#envelope}, else body and terminations)
 * stand at nominal, measured and predicted poses; a cap that passes over a low part is no
 * neighbour. A spatial index finds the pairs that come within a distance of each other at any of
 * the poses, so the work grows with the number of placements, not of pairs. Parts of which no size
 * is known are left out.
 */
public final class Clearance {
  private static final int NOMINAL = 0;
  private static final int ACTUAL = 1;
  private static final int AFTER_TRIM = 2;

  private final List<ClearanceItem> items;
  private final @Nullable BodyOutline[] outlines;

  /** Each item's outline at its nominal, measured and predicted pose; null where not known. */
  private final @Nullable Standing[][] standings;

  private final Envelope[] reaches;
  private final Map<String, Integer> byId = new HashMap<>();
  private final STRtree index = new STRtree();
  private final double nearMm;

  /**
   * Prepares the panel.
   *
   * @param items every placement of one panel
   * @param nearMm pairs farther apart than this, mm, are no neighbours
   */
  public Clearance(List<ClearanceItem> items, double nearMm) {
    if (!(nearMm >= 0) || Double.isInfinite(nearMm)) {
      throw new IllegalArgumentException("nearMm = " + nearMm + "; expected 0 or more");
    }
    this.items = List.copyOf(items);
    this.nearMm = nearMm;
    outlines = new BodyOutline[items.size()];
    standings = new Standing[items.size()][];
    reaches = new Envelope[items.size()];
    for (int i = 0; i < outlines.length; i++) {
      BodyOutline o = BodyOutline.of(items.get(i).part());
      outlines[i] = o;
      if (byId.put(items.get(i).id(), i) != null) {
        throw new IllegalArgumentException("two placements are called " + items.get(i).id());
      }
      standings[i] = stand(items.get(i), o);
      reaches[i] = reach(standings[i]);
      if (o != null) {
        index.insert(reaches[i], i);
      }
    }
    index.build();
  }

  /** Box around all poses of a placement, wider by the distance that counts as near. */
  private Envelope reach(@Nullable Standing[] poses) {
    Envelope box = new Envelope();
    for (Standing s : poses) {
      if (s != null) {
        box.expandToInclude(s.box());
      }
    }
    box.expandBy(nearMm);
    return box;
  }

  private static @Nullable Standing[] stand(ClearanceItem item, @Nullable BodyOutline o) {
    return new @Nullable Standing[] {
      stand(item, o, item.nominal()),
      stand(item, o, item.actual()),
      stand(item, o, item.afterTrim())
    };
  }

  private static @Nullable Standing stand(ClearanceItem item, @Nullable BodyOutline o, Pose p) {
    if (o == null || Double.isNaN(p.xMm()) || Double.isNaN(p.yMm())) {
      return null;
    }
    double r = Double.isNaN(p.rotationDeg()) ? item.nominal().rotationDeg() : p.rotationDeg();
    return Standing.of(o, new Pose(p.xMm(), p.yMm(), r));
  }

  /** Names of part types on this panel of which no size is known, sorted. */
  public List<String> partsWithoutOutline() {
    return items.stream()
        .map(ClearanceItem::part)
        .filter(p -> BodyOutline.of(p) == null)
        .map(PartType::name)
        .collect(Collectors.collectingAndThen(Collectors.toCollection(TreeSet::new), List::copyOf));
  }

  /** Pairs that come within the near distance at nominal, measured or predicted poses, by gap. */
  public List<PairClearance> pairs() {
    return pairs(nearMm);
  }

  /**
   * The same for a distance that is less than the near distance, mm.
   *
   * @throws IllegalArgumentException when it is more
   */
  public List<PairClearance> pairs(double withinMm) {
    if (!(withinMm <= nearMm)) {
      throw new IllegalArgumentException("withinMm = " + withinMm + "; at most " + nearMm);
    }
    List<PairClearance> out = new ArrayList<>();
    for (int i = 0; i < outlines.length; i++) {
      for (int j : neighbours(i)) {
        if (j > i) {
          add(out, i, j, withinMm);
        }
      }
    }
    out.sort(Comparator.comparingDouble(PairClearance::least));
    return out;
  }

  /** Pairs of one placement that come within the near distance; it stands first in each. */
  public List<PairClearance> around(String id) {
    Integer i = byId.get(id);
    if (i == null) {
      throw new IllegalArgumentException(id + " is not of this panel");
    }
    List<PairClearance> out = new ArrayList<>();
    for (int j : neighbours(i)) {
      add(out, i, j, nearMm);
    }
    return out;
  }

  private void add(List<PairClearance> out, int i, int j, double withinMm) {
    if (mayBeNear(i, j, withinMm)) {
      PairClearance p = pair(i, j);
      if (p.least() <= withinMm) {
        out.add(p);
      }
    }
  }

  /** Pairs that overlap as drawn: to be said before anything is placed. */
  public List<PairClearance> nominalOverlaps() {
    return pairs().stream().filter(p -> p.gapNominal() < 0).toList();
  }

  /** Indices of items that may come near, ascending; height ranges overlap. */
  private int[] neighbours(int i) {
    BodyOutline mine = outlines[i];
    if (mine == null) {
      return new int[0];
    }
    List<?> found = index.query(reaches[i]);
    int[] out = new int[found.size()];
    int n = 0;
    for (Object f : found) {
      int j = (Integer) f;
      BodyOutline other = outlines[j];
      if (j != i && other != null && mine.meetsInHeight(other)) {
        out[n++] = j;
      }
    }
    int[] kept = Arrays.copyOf(out, n);
    Arrays.sort(kept);
    return kept;
  }

  private PairClearance pair(int i, int j) {
    return new PairClearance(
        items.get(i), items.get(j), gap(i, j, NOMINAL), gap(i, j, ACTUAL), gap(i, j, AFTER_TRIM));
  }

  private double gap(int i, int j, int pose) {
    Standing a = standings[i][pose];
    Standing b = standings[j][pose];
    return a == null || b == null ? Double.NaN : a.gap(b);
  }

  /** Whether the shadows of two come near at any pose: gaps are no less than what is between. */
  private boolean mayBeNear(int i, int j, double withinMm) {
    for (int pose = NOMINAL; pose <= AFTER_TRIM; pose++) {
      Standing a = standings[i][pose];
      Standing b = standings[j][pose];
      if (a != null && b != null && a.separation(b) <= withinMm + Standing.ROUNDING_MM) {
        return true;
      }
    }
    return false;
  }

  /**
   * The smallest shift of one of two parts that gives them a wanted gap at the predicted poses,
   * keeps that part within its land limits, and does not bring it nearer than the wanted gap (or
   * than it is now) to any other neighbour. To be entered for that placement alone.
   *
   * @param pair a pair of this panel
   * @param wantedGapMm gap to reach, mm
   * @param judge land limits of a part type; a part that is not judged is not moved
   * @return the smaller of the two parts' shifts; empty when there is none, or nothing to do
   */
  public Optional<ClearingShift> suggest(
      PairClearance pair, double wantedGapMm, Function<PartType, LandFit> judge) {
    Integer i = byId.get(pair.a().id());
    Integer j = byId.get(pair.b().id());
    if (i == null || j == null) {
      throw new IllegalArgumentException("the pair is not of this panel");
    }
    if (!(wantedGapMm >= 0)) {
      throw new IllegalArgumentException("wantedGapMm = " + wantedGapMm + "; expected 0 or more");
    }
    if (!(pair.gapAfterTrim() < wantedGapMm)) {
      return Optional.empty();
    }
    Optional<ClearingShift> a = search(i, j, wantedGapMm, judge);
    Optional<ClearingShift> b = search(j, i, wantedGapMm, judge);
    if (a.isEmpty() || b.isEmpty()) {
      return a.or(() -> b);
    }
    return a.get().sizeMm() <= b.get().sizeMm() ? a : b;
  }

  private Optional<ClearingShift> search(
      int moved, int fixed, double wanted, Function<PartType, LandFit> judge) {
    ClearanceItem item = items.get(moved);
    LandFit fit = judge.apply(item.part());
    Standing self = standing(moved);
    Standing other = standing(fixed);
    if (!fit.judged() || self == null || other == null) {
      return Optional.empty();
    }
    List<Standing> rest = new ArrayList<>();
    for (int k : neighbours(moved)) {
      Standing s = standing(k);
      if (k != fixed && s != null) {
        rest.add(s);
      }
    }
    return new ClearingShiftSearch(item, fit, self, other, rest, wanted).smallest();
  }

  private @Nullable Standing standing(int i) {
    return standings[i][AFTER_TRIM];
  }
}
