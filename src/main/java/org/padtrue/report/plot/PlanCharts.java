package org.padtrue.report.plot;

import java.util.List;
import org.knowm.xchart.XYChart;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.plot.ink.Encoder;

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
  public static List<DrawnChart> render(Job job, MeasuringPlan plan, double wantedMm) {
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

  private static DrawnChart draw(String name, String title, String caption, ChartFrame frame) {
    XYChart chart = frame.finish();
    return new DrawnChart(
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
