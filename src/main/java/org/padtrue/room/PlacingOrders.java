package org.padtrue.room;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.padtrue.land.clearance.ComingDown;
import org.padtrue.land.clearance.StandingOutline;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/** Which of two neighbours to place first, because the other would be in the way. */
final class PlacingOrders {
  private static final double LEAST_CELL_MM = 0.5;

  private PlacingOrders() {}

  /**
   * Looks at neighbours both ways round; what the list places in a good order already is not said.
   *
   * @param items every placement of one panel
   * @param at where each stands in the end
   */
  static List<PlacingOrder> of(List<RoomItem> items, Function<RoomItem, Pose> at) {
    Map<PartType, Double> reaches = new IdentityHashMap<>();
    if (items.stream().noneMatch(i -> i.nozzleMm() > 0 || overhangs(i.part()))) {
      return List.of();
    }
    double most = 0;
    double nozzle = 0;
    for (RoomItem i : items) {
      most = Math.max(most, reaches.computeIfAbsent(i.part(), PlacingOrders::reach));
      nozzle = Math.max(nozzle, i.nozzleMm() > 0 ? i.nozzleMm() / 2 : 0);
    }
    // two that touch are no farther apart than the side of a square
    double cell = Math.max(LEAST_CELL_MM, most + Math.max(most, nozzle));
    Map<Cell, List<RoomItem>> grid = new HashMap<>();
    items.forEach(
        i -> grid.computeIfAbsent(key(at.apply(i), cell, 0, 0), k -> new ArrayList<>()).add(i));
    Map<String, PlacingOrder> out = new LinkedHashMap<>();
    for (RoomItem later : items) {
      Pose p = at.apply(later);
      for (int dx = -1; dx <= 1; dx++) {
        for (int dy = -1; dy <= 1; dy++) {
          for (RoomItem there : grid.getOrDefault(key(p, cell, dx, dy), List.of())) {
            look(later, p, there, at.apply(there), out);
          }
        }
      }
    }
    return List.copyOf(out.values());
  }

  private static double reach(PartType part) {
    return StandingOutline.of(part, new Pose(0, 0, 0))
        .map(o -> o.corners().stream().mapToDouble(c -> Math.hypot(c[0], c[1])).max().orElse(0))
        .orElse(0.0);
  }

  private static Cell key(Pose p, double cell, int dx, int dy) {
    return new Cell((long) Math.floor(p.xMm() / cell) + dx, (long) Math.floor(p.yMm() / cell) + dy);
  }

  /** A square of the panel. */
  private record Cell(long x, long y) {}

  /** Others may stand below some of it. */
  private static boolean overhangs(PartType part) {
    Envelope e = part.envelope();
    return e != null && e.zMinMm() > 0;
  }

  private static void look(
      RoomItem later, Pose p, RoomItem there, Pose q, Map<String, PlacingOrder> out) {
    if (later == there || later.order() < there.order()) {
      return;
    }
    String name = later.key() + " " + there.key();
    if (out.containsKey(name)) {
      return;
    }
    ComingDown.Touched t = ComingDown.of(later.part(), p, later.nozzleMm(), there.part(), q);
    if (t != ComingDown.Touched.NOTHING) {
      out.put(name, new PlacingOrder(later.key(), there.key(), sentence(later, there, t)));
    }
  }

  private static String sentence(RoomItem later, RoomItem there, ComingDown.Touched t) {
    String why =
        t == ComingDown.Touched.BY_PART
            ? later.key() + " would touch " + there.key() + " while it comes down"
            : String.format(
                Locale.ROOT,
                "the nozzle of %s (%.2f mm) would touch %s, which is taller",
                later.key(),
                later.nozzleMm(),
                there.key());
    return "Place " + later.key() + " before " + there.key() + ": placed later, " + why;
  }
}
