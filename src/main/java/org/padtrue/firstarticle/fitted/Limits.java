package org.padtrue.firstarticle.fitted;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.panel.Job;
import org.padtrue.panel.Tolerance;

/** How far off is too far, by part type: NaN where nothing says so. */
public final class Limits {
  private final Job job;
  private final Map<String, Tolerance> known = new HashMap<>();

  public Limits(Job job) {
    this.job = job;
  }

  /** Allowed deviation of a part type: its tolerance, else what its lands leave; NaN if neither. */
  Tolerance allowed(String part) {
    return known.computeIfAbsent(
        part,
        p ->
            LandFit.of(job.partType(p), AcceptanceLimits.published(), job.acceptanceClass())
                .allowed());
  }

  /** Tightest tolerance in x or y among part types, mm; NaN when none is known. */
  public double tightestMm(Collection<String> parts) {
    double t = Double.NaN;
    for (String p : parts) {
      t = least(least(t, allowed(p).xMm()), allowed(p).yMm());
    }
    return t;
  }

  /** Tightest tolerance in rotation among part types, degrees; NaN when none is known. */
  public double tightestDeg(Collection<String> parts) {
    double t = Double.NaN;
    for (String p : parts) {
      t = least(t, allowed(p).rotationDeg());
    }
    return t;
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Double.isNaN(b) ? a : Math.min(a, b);
  }
}
