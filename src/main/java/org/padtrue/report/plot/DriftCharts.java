package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.IntConsumer;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.log.DriftStudy;
import org.padtrue.log.SeriesNames;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;

/** All charts of a study of drift. */
public final class DriftCharts {
  /** Series that get a chart of their own; the table of the page has all. */
  private static final int MOST_SERIES = 8;

  private static final int MOST_SCATTERS = 4;

  private static final String HOW_TO_READ =
      "Each dot is one article, the bar one standard error either way; larger dots know more. The"
          + " line is the EWMA (exponentially weighted moving average), the band its control"
          + " limits. Rings are what was observed with the trims entered.";

  private DriftCharts() {}

  /**
   * Draws them.
   *
   * @param s what was found
   * @param formats what each is drawn as; none: nothing is drawn
   * @param done told how many are finished, never by two threads at once
   * @return the charts in the order of the page; none when there are too few articles
   */
  public static List<DrawnChart> render(DriftStudy s, Set<ChartFormat> formats, IntConsumer done) {
    return ChartPlan.draw(plans(s), formats, done);
  }

  private static List<ChartPlan> plans(DriftStudy s) {
    List<ChartPlan> plans = new ArrayList<>();
    for (SeriesDrift d : shown(s)) {
      plans.add(
          new ChartPlan(
              "series-" + file(d.name()),
              "series",
              "State of " + SeriesWords.framed(d.name()) + " over time",
              (plans.isEmpty() ? HOW_TO_READ : "The same for " + SeriesWords.name(d.name()) + ".")
                  + plus(d),
              () -> SeriesChart.frame(d)));
    }
    s.drift().series().stream()
        .filter(d -> d.temperature() != null && d.followsTemperature(s.drift().family().half()))
        .limit(MOST_SCATTERS)
        .forEach(
            d ->
                plans.add(
                    new ChartPlan(
                        "temperature-" + file(d.name()),
                        "spread",
                        SeriesWords.name(d.name()) + " against temperature",
                        "Each dot is one article with what drifts in time and warm-up taken off;"
                            + " the line is the fitted slope.",
                        () -> TemperatureChart.frame(d))));
    s.drift().series().stream()
        .filter(d -> d.warmUp() != null)
        .limit(MOST_SCATTERS)
        .forEach(
            d ->
                plans.add(
                    new ChartPlan(
                        "warmup-" + file(d.name()),
                        "spread",
                        SeriesWords.name(d.name()) + " after the start",
                        "Each dot is one article with what drifts in time and with temperature"
                            + " taken off; the curve is the fitted settling.",
                        () -> WarmUpChart.frame(d))));
    for (OffsetAxis along : List.of(OffsetAxis.X, OffsetAxis.Y)) {
      String axis = along.key();
      ShiftMap map = ShiftMap.of(s, along);
      if (map.worthDrawing()) {
        plans.add(
            new ChartPlan(
                "types-by-shift-" + axis,
                "map",
                "Part types and nozzles by working shift, " + axis,
                "Mean state of each working shift against the base period. Blue is below, orange"
                    + " above; a square is filled only where it is more than two standard errors"
                    + " off.",
                map::frame));
      }
    }
    return plans;
  }

  /** Series with hints, then those whose charts signal, then the scales and shifts. */
  private static List<SeriesDrift> shown(DriftStudy s) {
    Set<String> names = new LinkedHashSet<>();
    for (Hint h : s.drift().hints()) {
      names.addAll(h.series());
    }
    s.drift().series().stream()
        .filter(d -> !d.signals().isEmpty())
        .forEach(d -> names.add(d.name()));
    names.addAll(SeriesNames.ALWAYS_SHOWN);
    List<SeriesDrift> out = new ArrayList<>();
    for (String n : names) {
      s.drift().series().stream()
          .filter(d -> d.name().equals(n) && d.series().points().size() > 1)
          .forEach(out::add);
    }
    return out.subList(0, Math.min(MOST_SERIES, out.size()));
  }

  private static String plus(SeriesDrift d) {
    String p = SeriesWords.plus(d.name());
    return p.isEmpty()
        ? ""
        : " " + p.substring(0, 1).toUpperCase(Locale.ROOT) + p.substring(1) + ".";
  }

  /** A series' name as part of a file's. */
  static String file(String name) {
    return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
  }
}
