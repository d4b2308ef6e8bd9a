package org.padtrue.report.plot;

import java.util.List;
import java.util.Set;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;

/** The two charts of a measuring plan. */
public final class PlanCharts {
  private PlanCharts() {}

  /**
   * Draws the uncertainty against the number measured, and the walk over the panel.
   *
   * @param job the job that is planned for
   * @param plan the plan
   * @param wantedMm standard error that was wanted, mm; NaN when none was
   * @param formats what each is drawn as; none: nothing is drawn
   * @return "uncertainty" and "walk"
   */
  public static List<DrawnChart> render(
      Job job, MeasuringPlan plan, double wantedMm, Set<ChartFormat> formats) {
    return ChartPlan.draw(
        List.of(
            new ChartPlan(
                "uncertainty",
                "plan",
                "Uncertainty against number measured",
                "Standard error of the worst and of the middle trim as more placements are"
                    + " measured.",
                () -> PlanCurve.frame(plan, wantedMm)),
            new ChartPlan(
                "walk",
                "plan",
                "The walk over the panel",
                "What to measure, numbered in walking order as in the table.",
                () -> new WalkMap(job, plan).frame())),
        formats,
        done -> {});
  }
}
