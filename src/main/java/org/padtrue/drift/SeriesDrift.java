package org.padtrue.drift;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.cause.SlowKind;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.chart.ChartLimits;
import org.padtrue.drift.chart.ControlChart;
import org.padtrue.drift.chart.RunRules;
import org.padtrue.drift.chart.Signal;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.EventStep;
import org.padtrue.drift.trend.TrendEffect;

/**
 * What one series shows.
 *
 * @param series the series
 * @param base base period that the limits come from, or null when there are too few points
 * @param limits limits used, or null likewise
 * @param charts individuals, movingRange, ewma, cusumUp, cusumDown; empty likewise
 * @param signals where charts left their limits; false alarms controlled over the family
 * @param ruleHits Nelson's rules, not controlled
 * @param slow what the slow part looks like
 * @param trend or null when times do not differ
 * @param temperature or null when it is not known or did not vary
 * @param temperatureChosen whether temperature is among what explains the series best
 * @param warmUp or null when it is not among that, not significant over the family or not told
 * @param changes steps that are significant over the family
 * @param eventSteps what each known event did
 * @param changeP least p value of a change at an unknown time; NaN with too few points
 * @param changePAdjusted p value after Holm, over the family
 * @param forecast or null when there is no trend or no limit
 * @param adjusted state of each point with temperature and warm-up taken off
 */
public record SeriesDrift(
    DriftSeries series,
    @Nullable BaseEstimate base,
    @Nullable ChartLimits limits,
    List<ControlChart> charts,
    List<Signal> signals,
    List<RunRules.Hit> ruleHits,
    SlowKind slow,
    @Nullable TrendEffect trend,
    @Nullable TemperatureEffect temperature,
    boolean temperatureChosen,
    @Nullable WarmUp warmUp,
    List<Change> changes,
    List<EventStep> eventSteps,
    double changeP,
    double changePAdjusted,
    @Nullable Forecast forecast,
    List<Double> adjusted) {
  public SeriesDrift {
    charts = List.copyOf(charts);
    signals = List.copyOf(signals);
    ruleHits = List.copyOf(ruleHits);
    changes = List.copyOf(changes);
    eventSteps = List.copyOf(eventSteps);
    adjusted = List.copyOf(adjusted);
  }

  /** Name of the series. */
  public String name() {
    return series.name();
  }

  /** True when its trend is significant over the family and its slow part is a line. */
  public boolean trends(double alpha) {
    return trend != null && slow.hasTrend() && trend.pAdjusted() <= alpha;
  }

  /** True when temperature is chosen and significant over the family. */
  public boolean followsTemperature(double alpha) {
    return temperature != null && temperatureChosen && temperature.pAdjusted() <= alpha;
  }
}
