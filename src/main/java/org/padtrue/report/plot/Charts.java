package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.IntConsumer;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.plot.ink.Labels;

/** All charts of a report. */
public final class Charts {
  /** Panels that get maps of their own; of more, the first ones do. */
  private static final int MAPPED_PANELS = 3;

  private Charts() {}

  /**
   * Draws every chart that the result has data for.
   *
   * @param r what was found
   * @param formats what each is drawn as; none: nothing is drawn
   * @param done told how many are finished, never by two threads at once
   * @return the charts in the order of the report; none when nothing was used
   */
  public static List<DrawnChart> render(
      FirstArticleResult r, Set<ChartFormat> formats, IntConsumer done) {
    return ChartPlan.draw(plans(PlotData.of(r)), formats, done);
  }

  /** How many charts {@link #render} will draw. */
  public static int count(FirstArticleResult r) {
    return plans(PlotData.of(r)).size();
  }

  private static List<ChartPlan> plans(PlotData data) {
    List<ChartPlan> plans = new ArrayList<>();
    if (data.used().isEmpty()) {
      return plans;
    }
    maps(plans, data);
    targets(plans, data);
    rows(plans, data);
    return plans;
  }

  private static void maps(List<ChartPlan> plans, PlotData data) {
    List<PanelResult> panels = data.result().panels();
    boolean several = panels.size() > 1;
    for (PanelResult panel : panels.subList(0, Math.min(MAPPED_PANELS, panels.size()))) {
      PlotData own = several ? data.panel(panel.panel()) : data;
      if (own.used().isEmpty()) {
        continue;
      }
      String suffix = several ? ", panel " + Labels.cut(panel.panel(), 20) : "";
      int number = panels.indexOf(panel) + 1;
      for (PanelMap.Kind kind : PanelMap.Kind.values()) {
        String name = "map-" + kind.name().toLowerCase(Locale.ROOT) + (several ? "-" + number : "");
        plans.add(
            new ChartPlan(
                name,
                "map",
                "Panel map" + suffix,
                mapCaption(kind),
                () -> new PanelMap(own, kind, suffix).frame()));
      }
    }
  }

  private static String mapCaption(PanelMap.Kind kind) {
    return switch (kind) {
      case BEFORE ->
          "Every arrow shows how far and to where a placement is off, much enlarged; the arrow at"
              + " the top left gives the scale. Arrows that all point one way are a panel offset;"
              + " that turn about a point, a rotation; that grow outwards, a scale.";
      case AFTER -> "The same placements had the trims been entered, at the same scale.";
      case RESIDUAL ->
          "What is left when the fitted model is taken off, at a scale of its own. No pattern"
              + " should be seen.";
    };
  }

  private static void targets(List<ChartPlan> plans, PlotData data) {
    if (data.anyTolerance()) {
      String caption =
          "Deviation in the part's own axes as a share of that placement's own tolerance; the outer"
              + " square is the limit.";
      plans.add(
          new ChartPlan(
              "target-tolerance-before",
              "target",
              "Deviations as measured against tolerance",
              caption,
              () -> TargetChart.scaled(data, false)));
      plans.add(
          new ChartPlan(
              "target-tolerance-after",
              "target",
              "Deviations with the trims against tolerance",
              caption,
              () -> TargetChart.scaled(data, true)));
    }
    String caption = "Deviation in the panel's axes, micrometres, both at the same scale.";
    plans.add(
        new ChartPlan(
            "target-before",
            "target",
            "Deviations as measured in micrometres",
            caption,
            () -> TargetChart.micrometres(data, false)));
    plans.add(
        new ChartPlan(
            "target-after",
            "target",
            "Deviations with the trims in micrometres",
            caption,
            () -> TargetChart.micrometres(data, true)));
  }

  private static void rows(List<ChartPlan> plans, PlotData data) {
    if (!data.result().budget().isEmpty()) {
      plans.add(
          new ChartPlan(
              "budget",
              "more",
              "Where the variation comes from",
              "Mean square of every term over the placements used; terms that overlap are shown as"
                  + " such.",
              () -> BudgetChart.frame(data.result().budget())));
    }
    if (data.anyTolerance()) {
      plans.add(
          new ChartPlan(
              "tolerance-use",
              "more",
              "Use of each placement's own tolerance",
              "Every placement's largest share of its own tolerance. Beyond 200 % a mark stays at"
                  + " the edge.",
              () -> TypeCharts.toleranceUse(data)));
    }
    if (data.anyLands()) {
      plans.add(
          new ChartPlan(
              "margin",
              "more",
              "Distance left before the limit",
              "For placements judged by their lands: how far a termination may still move before"
                  + " its limit. Far outside, a mark stays at the edge.",
              () -> TypeCharts.margin(data)));
    }
    String spread =
        "Offset and scatter of each part type in its own frame with the panel's terms taken off;"
            + " number of placements in brackets.";
    plans.add(
        new ChartPlan(
            "spread-x",
            "spread",
            "Spread by part type along x",
            spread,
            () -> TypeCharts.spread(data, true)));
    plans.add(
        new ChartPlan(
            "spread-y",
            "spread",
            "Spread by part type along y",
            spread,
            () -> TypeCharts.spread(data, false)));
    if (data.anyRotation()) {
      plans.add(
          new ChartPlan(
              "rotation",
              "more",
              "Rotation by part type",
              "Rotation deviations. A type that sits turned as a whole is drawn from its own zero;"
                  + " a turned part that was left out is not drawn.",
              () -> TypeCharts.rotation(data)));
    }
    plans.add(
        new ChartPlan(
            "normal",
            "spread",
            "Residuals against a normal distribution",
            "On the dashed line the scatter is normal; ends that bend away are more extreme values"
                + " than it would give.",
            () -> QqChart.frame(data)));
  }
}
