package org.padtrue.report.plot;

import java.util.List;
import org.knowm.xchart.XYChart;
import org.padtrue.panel.Job;
import org.padtrue.trim.MeasuringPlan;

/** The two charts of a measuring plan. */
public final class PlanCharts {
  private PlanCharts() {}

  /**
   * Draws the uncertainty against the number measured, and the walk over the panel.
   *
   * @param job the job that is planned for
   * @param plan the plan
   * @param wantedMm standard error that was wanted, mm; NaN when none was
   * @return "uncertainty" and "walk"
   */
  public static List<Picture> render(Job job, MeasuringPlan plan, double wantedMm) {
    return List.of(
        draw(
            "uncertainty",
            "Uncertainty against number measured",
            "Standard error of the worst and of the middle trim as more placements are measured.",
            PlanCurve.frame(plan, wantedMm)),
        draw(
            "walk",
            "The walk over the panel",
            "What to measure, numbered in walking order as in the table.",
            new WalkMap(job, plan).frame()));
  }

  private static Picture draw(String name, String title, String caption, Frame frame) {
    XYChart chart = frame.finish();
    return new Picture(
        name,
        "plan",
        title,
        caption,
        chart.getWidth(),
        chart.getHeight(),
        Encoder.png(chart),
        Encoder.svg(chart));
  }
}
