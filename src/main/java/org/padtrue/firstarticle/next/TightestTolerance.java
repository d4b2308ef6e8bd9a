package org.padtrue.firstarticle.next;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Tolerance;

/**
 * What measuring has to be compared with: the tightest tolerance of any placement, along the
 * panel's axes.
 *
 * @param tolerance NaN along an axis where none is known
 * @param parts part type behind it, by axis (x, y, rotation)
 */
public record TightestTolerance(Tolerance tolerance, Map<String, String> parts) {
  public TightestTolerance {
    parts = Map.copyOf(parts);
  }

  /** The tightest of a job; null when no part type has a tolerance. */
  public static @Nullable TightestTolerance of(Job job) {
    Map<String, Tolerance> allowed = new HashMap<>();
    Map<String, Double> least = new HashMap<>();
    Map<String, String> parts = new HashMap<>();
    for (Placement p : job.placements()) {
      Tolerance t =
          allowed.computeIfAbsent(
              p.part(),
              k ->
                  LandFit.of(job.partType(k), AcceptanceLimits.published(), job.acceptanceClass())
                      .allowed());
      double turn = Math.abs(p.pose().rotationDeg() % 180);
      boolean along = turn < 1 || turn > 179;
      boolean across = Math.abs(turn - 90) < 1;
      double both = least(t.xMm(), t.yMm());
      Map<String, Double> own =
          Map.of(
              "x", along ? t.xMm() : across ? t.yMm() : both,
              "y", along ? t.yMm() : across ? t.xMm() : both,
              "rotation", t.rotationDeg());
      own.forEach(
          (axis, v) -> {
            if (v < least.getOrDefault(axis, Double.POSITIVE_INFINITY)) {
              least.put(axis, v);
              parts.put(axis, p.part());
            }
          });
    }
    return least.isEmpty()
        ? null
        : new TightestTolerance(
            new Tolerance(of(least, "x"), of(least, "y"), of(least, "rotation")), parts);
  }

  private static double of(Map<String, Double> least, String axis) {
    return least.getOrDefault(axis, Double.NaN);
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Double.isNaN(b) ? a : Math.min(a, b);
  }
}
