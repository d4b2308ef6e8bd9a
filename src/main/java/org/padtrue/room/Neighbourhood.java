package org.padtrue.room;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import org.padtrue.land.clearance.Clearance;
import org.padtrue.land.clearance.ClearanceItem;
import org.padtrue.land.clearance.OutlinePair;
import org.padtrue.land.clearance.PairClearance;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.panel.Pose;

/** All items of a panel and who may come near whom. Safe to share between threads. */
final class Neighbourhood {
  /** Far below what moves are given to, mm and degrees; and squared. */
  private static final double SAME = 1e-6;

  private static final double SAME_VARIANCE = 1e-9;

  private static final Pose UNKNOWN = new Pose(Double.NaN, Double.NaN, Double.NaN);

  private final Map<String, RoomItem> byId = new HashMap<>();
  private final Map<String, List<RoomItem>> byKey = new LinkedHashMap<>();
  private final BiFunction<RoomItem, RoomItem, PairSpread> spread;
  private final Clearance clearance;

  /**
   * Prepares a panel.
   *
   * @param items every placement
   * @param spread how two scatter against each other
   * @param reachMm pairs farther apart than this can never come near, mm
   */
  Neighbourhood(
      List<RoomItem> items, BiFunction<RoomItem, RoomItem, PairSpread> spread, double reachMm) {
    this.spread = spread;
    List<ClearanceItem> standing = new ArrayList<>();
    for (RoomItem i : items) {
      byId.put(i.id(), i);
      byKey.computeIfAbsent(i.key(), k -> new ArrayList<>()).add(i);
      standing.add(new ClearanceItem(i.id(), i.part(), i.pose(), UNKNOWN, UNKNOWN));
    }
    clearance = new Clearance(standing, reachMm);
  }

  List<String> withoutOutline() {
    return clearance.partsWithoutOutline();
  }

  /** Pairs that stand within a distance, mm. */
  List<Near> within(double mm) {
    return clearance.pairs(mm).parallelStream().map(this::near).flatMap(Optional::stream).toList();
  }

  private Optional<Near> near(PairClearance p) {
    RoomItem a = item(p.a().id());
    RoomItem b = item(p.b().id());
    return OutlinePair.of(a.part(), b.part()).map(o -> new Near(a, b, o, spread.apply(a, b)));
  }

  private RoomItem item(String id) {
    RoomItem i = byId.get(id);
    if (i == null) {
      throw new IllegalArgumentException(id + " is not of this panel");
    }
    return i;
  }

  List<RoomItem> items(Collection<String> keys) {
    return keys.stream().flatMap(k -> byKey.getOrDefault(k, List.of()).stream()).toList();
  }

  /** Every pair that has one of the keys; a pair of two of them once. */
  List<Near> pairsOf(Collection<String> keys) {
    List<Near> out = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (RoomItem i : items(keys)) {
      for (PairClearance p : clearance.around(i.id())) {
        String a = p.a().id();
        String b = p.b().id();
        if (seen.add(a.compareTo(b) < 0 ? a + " " + b : b + " " + a)) {
          near(p).ifPresent(out::add);
        }
      }
    }
    return out;
  }

  /** What two copies of a pair have to share to ask the same of the moves. */
  private record Asked(String a, String b, List<Long> rounded, PairSpread spread) {}

  /** Pairs that ask the same of the moves once: copies on boards that lie alike. */
  static List<Near> distinct(List<Near> pairs) {
    Map<Asked, Near> out = new LinkedHashMap<>();
    for (Near n : pairs) {
      Pose a = n.a().pose();
      Pose b = n.b().pose();
      List<Long> rounded =
          List.of(
              Math.round((b.xMm() - a.xMm()) / SAME),
              Math.round((b.yMm() - a.yMm()) / SAME),
              Math.round(a.rotationDeg() / SAME),
              Math.round(b.rotationDeg() / SAME),
              Math.round(n.a().boardDeg() / SAME),
              Math.round(n.b().boardDeg() / SAME));
      out.putIfAbsent(new Asked(n.a().key(), n.b().key(), rounded, rounded(n.spread())), n);
    }
    return List.copyOf(out.values());
  }

  private static PairSpread rounded(PairSpread s) {
    return new PairSpread(
        rounded(s.varX()),
        rounded(s.varY()),
        rounded(s.covXY()),
        rounded(s.varRotationA()),
        rounded(s.varRotationB()));
  }

  private static double rounded(double v) {
    return Math.rint(v / SAME_VARIANCE) * SAME_VARIANCE;
  }
}
