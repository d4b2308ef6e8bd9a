package org.padtrue.log;

import java.util.HashMap;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.next.PlacingScatter;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.plan.model.ScatterText;

/**
 * The scatter that a plan reckons with: what was typed, else what earlier articles show, else
 * common practice.
 *
 * @param options for the plan
 * @param practiceMm true when the scatter is common practice, not this machine's
 * @param practiceDeg the same for rotation
 */
public record PlanScatter(MeasuringPlanOptions options, boolean practiceMm, boolean practiceDeg) {
  /** Where it was typed, for messages. */
  public record Fields(String mm, String deg) {}

  /**
   * Works it out.
   *
   * @param earlier what earlier articles show, or null
   * @param mm typed scatter, or null
   * @param deg typed rotation scatter, or null
   */
  public static PlanScatter of(
      Job job,
      @Nullable PlacingScatter earlier,
      @Nullable String mm,
      @Nullable String deg,
      Fields fields) {
    MeasuringPlanOptions o = MeasuringPlanOptions.withDefaults();
    boolean earlierDeg = false;
    if (earlier != null) {
      o = o.withScatterMm(earlier.mm()).withScatterMmByType(earlier.mmByType());
      if (!Double.isNaN(earlier.deg())) {
        o = o.withScatterRotationDeg(earlier.deg()).withScatterDegByType(earlier.degByType());
        earlierDeg = true;
      }
    }
    TreeSet<String> parts = new TreeSet<>(job.placements().stream().map(Placement::part).toList());
    if (mm != null) {
      ScatterText t = ScatterText.parse(fields.mm(), mm, "mm", parts);
      // One number for all is all of them; a part type's own leaves the others.
      o = t.all() == null ? o : o.withScatterMm(t.all()).withScatterMmByType(Map.of());
      o = o.withScatterMmByType(joined(o.scatterMmByType(), t.byType()));
    }
    if (deg != null) {
      ScatterText t = ScatterText.parse(fields.deg(), deg, "degrees", parts);
      o = t.all() == null ? o : o.withScatterRotationDeg(t.all()).withScatterDegByType(Map.of());
      o = o.withScatterDegByType(joined(o.scatterDegByType(), t.byType()));
    }
    return new PlanScatter(o, mm == null && earlier == null, deg == null && !earlierDeg);
  }

  private static Map<String, Double> joined(Map<String, Double> a, Map<String, Double> b) {
    Map<String, Double> all = new HashMap<>(a);
    all.putAll(b);
    return all;
  }
}
