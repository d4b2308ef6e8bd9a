package org.padtrue.door;

import java.util.List;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** How long parts are. */
final class Body {
  /**
   * Where nothing is known of any part (common practice: few parts are smaller than half of it).
   */
  private static final double UNKNOWN_MM = 5;

  private static final double LEAST_MM = 1;

  private Body() {}

  /** The longest side of any part that was measured, mm, at least 1; 5 where none is known. */
  static double longest(Job job, List<Measured> rows) {
    double longest = Double.NaN;
    for (String part : rows.stream().map(m -> m.placement().part()).distinct().toList()) {
      double l = longest(job.partType(part));
      longest = Double.isNaN(longest) ? l : Double.isNaN(l) ? longest : Math.max(l, longest);
    }
    return Double.isNaN(longest) ? UNKNOWN_MM : Math.max(LEAST_MM, longest);
  }

  private static double longest(PartType t) {
    if (t.body() != null) {
      return Math.max(t.body().lengthMm(), t.body().widthMm());
    }
    if (t.envelope() != null) {
      return Math.max(t.envelope().lengthMm(), t.envelope().widthMm());
    }
    double l = Double.NaN;
    for (List<Rect> all : List.of(t.terminations(), t.lands())) {
      if (Double.isNaN(l) && !all.isEmpty()) {
        l = 0;
        for (Rect r : all) {
          l = Math.max(l, 2 * Math.abs(r.xMm()) + r.lengthMm());
          l = Math.max(l, 2 * Math.abs(r.yMm()) + r.widthMm());
        }
      }
    }
    return l;
  }
}
