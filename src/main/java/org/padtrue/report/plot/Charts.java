package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntConsumer;
import java.util.function.Supplier;
import org.knowm.xchart.XYChart;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.plot.ink.Encoder;
import org.padtrue.report.plot.ink.Labels;

/** All charts of a report. */
public final class Charts {
  private static final int THREADS = 2;

  /** Panels that get maps of their own; of more, the first ones do. */
  private static final int MAPPED_PANELS = 3;

  private record Plan(
      String name, String group, String title, String caption, Supplier<ChartFrame> frame) {}

  private Charts() {}

  /**
   * Draws every chart that the result has data for, on two threads.
   *
   * @param r what was found
   * @param done told how many are finished, never by two threads at once
   * @return the charts in the order of the report; none when nothing was used
   */
  public static List<DrawnChart> render(FirstArticleResult r, IntConsumer done) {
    PlotData data = PlotData.of(r);
    List<Plan> plans = data.used().isEmpty() ? List.of() : plans(data);
    ExecutorService pool = Executors.newFixedThreadPool(THREADS, Charts::daemon);
    try {
      List<Future<DrawnChart>> futures = new ArrayList<>();
      int[] finished = {0};
      for (Plan p : plans) {
        futures.add(
            pool.submit(
                () -> {
                  DrawnChart picture = draw(p);
                  synchronized (finished) {
                    done.accept(++finished[0]);
                  }
                  return picture;
                }));
      }
      List<DrawnChart> pictures = new ArrayList<>();
      for (Future<DrawnChart> f : futures) {
        pictures.add(f.get());
      }
      return pictures;
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException x ? x : new IllegalStateException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while drawing charts", e);
    } finally {
      pool.shutdownNow();
    }
  }

  /** How many charts {@link #render} will draw. */
  public static int count(FirstArticleResult r) {
    PlotData data = PlotData.of(r);
    return data.used().isEmpty() ? 0 : plans(data).size();
  }

  private static Thread daemon(Runnable work) {
    Thread t = new Thread(work, "charts");
    t.setDaemon(true);
    return t;
  }

  private static DrawnChart draw(Plan p) {
    XYChart chart = p.frame().get().finish();
    byte[] png = Encoder.png(chart);
    byte[] svg = Encoder.svg(chart);
    return new DrawnChart(
        p.name(), p.group(), p.title(), p.caption(), chart.getWidth(), chart.getHeight(), png, svg);
  }

  private static List<Plan> plans(PlotData data) {
    List<Plan> plans = new ArrayList<>();
    maps(plans, data);
    targets(plans, data);
    rows(plans, data);
    return plans;
  }

  private static void maps(List<Plan> plans, PlotData data) {
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
            new Plan(
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

  private static void targets(List<Plan> plans, PlotData data) {
    if (data.anyTolerance()) {
      String caption =
          "Deviation in the part's own axes as a share of that placement's own tolerance; the outer"
              + " square is the limit.";
      plans.add(
          new Plan(
              "target-tolerance-before",
              "target",
              "Deviations as measured against tolerance",
              caption,
              () -> TargetChart.scaled(data, false)));
      plans.add(
          new Plan(
              "target-tolerance-after",
              "target",
              "Deviations with the trims against tolerance",
              caption,
              () -> TargetChart.scaled(data, true)));
    }
    String caption = "Deviation in the panel's axes, micrometres, both at the same scale.";
    plans.add(
        new Plan(
            "target-before",
            "target",
            "Deviations as measured in micrometres",
            caption,
            () -> TargetChart.micrometres(data, false)));
    plans.add(
        new Plan(
            "target-after",
            "target",
            "Deviations with the trims in micrometres",
            caption,
            () -> TargetChart.micrometres(data, true)));
  }

  private static void rows(List<Plan> plans, PlotData data) {
    if (!data.result().budget().isEmpty()) {
      plans.add(
          new Plan(
              "budget",
              "more",
              "Where the variation comes from",
              "Mean square of every term over the placements used; terms that overlap are shown as"
                  + " such.",
              () -> BudgetChart.frame(data.result().budget())));
    }
    if (data.anyTolerance()) {
      plans.add(
          new Plan(
              "tolerance-use",
              "more",
              "Use of each placement's own tolerance",
              "Every placement's largest share of its own tolerance. Beyond 200 % a mark stays at"
                  + " the edge.",
              () -> TypeCharts.toleranceUse(data)));
    }
    if (data.anyLands()) {
      plans.add(
          new Plan(
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
        new Plan(
            "spread-x",
            "spread",
            "Spread by part type along x",
            spread,
            () -> TypeCharts.spread(data, true)));
    plans.add(
        new Plan(
            "spread-y",
            "spread",
            "Spread by part type along y",
            spread,
            () -> TypeCharts.spread(data, false)));
    if (data.anyRotation()) {
      plans.add(
          new Plan(
              "rotation",
              "more",
              "Rotation by part type",
              "Rotation deviations. A type that sits turned as a whole is drawn from its own zero;"
                  + " a turned part that was left out is not drawn.",
              () -> TypeCharts.rotation(data)));
    }
    plans.add(
        new Plan(
            "normal",
            "spread",
            "Residuals against a normal distribution",
            "On the dashed line the scatter is normal; ends that bend away are more extreme values"
                + " than it would give.",
            () -> QqChart.frame(data)));
  }
}
