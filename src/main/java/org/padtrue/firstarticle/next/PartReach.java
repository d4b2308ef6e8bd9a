package org.padtrue.firstarticle.next;

import java.util.HashMap;
import java.util.Map;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** Farthest that a termination or the body reaches from the middle of a part, mm. */
public final class PartReach {
  /** Of a part of which no size is known. */
  private static final double USUAL_MM = 1;

  private final Job job;
  private final Map<String, Double> of = new HashMap<>();

  public PartReach(Job job) {
    this.job = job;
  }

  public double of(String part) {
    return of.computeIfAbsent(part, p -> farthest(job.partType(p)));
  }

  private static double farthest(PartType t) {
    double r = 0;
    for (Rect e : t.terminations()) {
      double x = Math.abs(e.xMm()) + e.lengthMm() / 2;
      double y = Math.abs(e.yMm()) + e.widthMm() / 2;
      r = Math.max(r, Math.hypot(x, y));
    }
    Rect body = t.body();
    if (body != null) {
      r = Math.max(r, Math.hypot(body.lengthMm(), body.widthMm()) / 2);
    }
    return r > 0 ? r : USUAL_MM;
  }
}
