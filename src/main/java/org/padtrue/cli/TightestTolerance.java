package org.padtrue.cli;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Tolerance;

/** What measuring has to be compared with. */
final class TightestTolerance {
  private TightestTolerance() {}

  /** The tightest tolerance of any placement, along the panel's axes; null when none is known. */
  static @Nullable Tolerance of(Job job) {
    double x = Double.NaN;
    double y = Double.NaN;
    double r = Double.NaN;
    Map<String, Tolerance> allowed = new HashMap<>();
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
      x = least(x, along ? t.xMm() : across ? t.yMm() : both);
      y = least(y, along ? t.yMm() : across ? t.xMm() : both);
      r = least(r, t.rotationDeg());
    }
    return Double.isNaN(x) && Double.isNaN(y) && Double.isNaN(r) ? null : new Tolerance(x, y, r);
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Double.isNaN(b) ? a : Math.min(a, b);
  }
}
