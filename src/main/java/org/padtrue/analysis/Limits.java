package org.padtrue.analysis;

import java.util.Collection;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Tolerance;

/** How far off is too far, by part type: NaN where nothing says so. */
final class Limits {
  private final Job job;

  Limits(Job job) {
    this.job = job;
  }

  /** Tightest tolerance in x or y among part types, mm; NaN when none is known. */
  double tightestMm(Collection<String> parts) {
    double t = Double.NaN;
    for (String p : parts) {
      Tolerance tol = job.partType(p).tolerance();
      if (tol != null) {
        t = least(t, Math.min(tol.xMm(), tol.yMm()));
      }
    }
    return t;
  }

  /** Tightest tolerance in rotation among part types, degrees; NaN when none is known. */
  double tightestDeg(Collection<String> parts) {
    double t = Double.NaN;
    for (String p : parts) {
      Tolerance tol = job.partType(p).tolerance();
      if (tol != null) {
        t = least(t, tol.rotationDeg());
      }
    }
    return t;
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Math.min(a, b);
  }

  PartType type(String part) {
    return job.partType(part);
  }
}
