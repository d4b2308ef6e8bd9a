package org.padtrue.drift;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.chart.ChartLimits;
import org.padtrue.drift.chart.ControlChart;
import org.padtrue.drift.chart.FamilyControl;
import org.padtrue.drift.chart.RunRules;
import org.padtrue.drift.chart.Signal;
import org.padtrue.drift.hint.SpelledNumbers;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.EventStep;
import org.padtrue.drift.series.KnownEvent;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.panel.term.FixedTerm;

/**
 * Drift of a family of series: takes each apart, then holds false alarms over all of them, then
 * looks for causes.
 */
public final class DriftAnalysis {
  /** Fewer points than this carry no control limits. */
  private static final int FEWEST_FOR_CHARTS = 8;

  private final DriftOptions options;

  /** With options. */
  public DriftAnalysis(DriftOptions options) {
    this.options = options;
  }

  /**
   * Analyses.
   *
   * @param series the family; order is kept
   * @param events what happened to the machine when; services that the points tell of by a falling
   *     count of placements since service are added
   */
  public DriftResult run(List<DriftSeries> series, List<KnownEvent> events) {
    List<KnownEvent> all = withServices(series, events);
    // Series do not know each other until their p values meet.
    List<SeriesModel> models = series.parallelStream().map(s -> SeriesModel.of(s, all)).toList();
    Tests tests = Tests.of(models);
    int charted = (int) models.stream().filter(m -> m.n >= FEWEST_FOR_CHARTS).count();
    int charts = SeriesCharts.COUNTED * charted;
    double perChart = FamilyControl.perChart(options.alpha(), charts);
    Map<Integer, ChartLimits> limits = new HashMap<>();
    List<SeriesDrift> results = new ArrayList<>();
    double rate = 0;
    for (int i = 0; i < models.size(); i++) {
      SeriesDrift d = assemble(models.get(i), tests, i, all, perChart, limits);
      results.add(d);
      if (d.limits() != null) {
        rate +=
            1 / d.limits().arlIndividuals() + 1 / d.limits().arlEwma() + 1 / d.limits().arlCusum();
      }
    }
    FamilyControl family =
        new FamilyControl(
            options.alpha(),
            series.size(),
            charts,
            tests.count(),
            perChart,
            longest(models) / -Math.log1p(-0.5 * options.alpha()),
            1 / rate);
    return new DriftResult(
        results,
        family,
        repeatability(models),
        new HintWriter(results, options, family.half()).hints(),
        notes(results, charted));
  }

  private SeriesDrift assemble(
      SeriesModel m,
      Tests tests,
      int index,
      List<KnownEvent> events,
      double perChart,
      Map<Integer, ChartLimits> cache) {
    double half = 0.5 * options.alpha();
    BaseEstimate base = null;
    ChartLimits limits = null;
    List<ControlChart> charts = List.of();
    List<Signal> signals = List.of();
    List<RunRules.Hit> rules = List.of();
    if (m.n >= FEWEST_FOR_CHARTS) {
      int points = options.base(m.n);
      base = BaseEstimate.of(m.y, m.se, 0, points);
      limits =
          cache.computeIfAbsent(
              m.n, n -> ChartLimits.of(perChart, n, points, options.lambda(), options.cusumK()));
      SeriesCharts c = new SeriesCharts(m, base, limits, options);
      charts = c.charts;
      signals = c.signals;
      rules = c.rules;
    }
    TrendEffect trend = m.trend == null ? null : m.trend.adjusted(tests.trend(index));
    TemperatureEffect t = m.temperature;
    List<EventStep> steps = new ArrayList<>();
    for (int k = 0; k < m.eventSteps.size(); k++) {
      steps.add(m.eventSteps.get(k).adjusted(tests.step(index, k)));
    }
    double[] changes = new double[m.changeP.length];
    for (int k = 0; k < changes.length; k++) {
      changes[k] = tests.change(index, k);
    }
    Forecast forecast =
        trend != null && trend.pAdjusted() <= half ? m.forecast(options.limit(m.series)) : null;
    return new SeriesDrift(
        m.series,
        base,
        limits,
        charts,
        signals,
        rules,
        m.slow.kind(),
        trend,
        t == null ? null : t.adjusted(tests.temperature(index)),
        m.model.temperature(),
        warmUp(m, tests.warmUp(index), half),
        changes(m, events, steps, changes, half),
        steps,
        Arrays.stream(m.changeP).min().orElse(Double.NaN),
        Arrays.stream(changes).min().orElse(Double.NaN),
        forecast,
        Arrays.stream(m.adjusted).boxed().toList());
  }

  private static int longest(List<SeriesModel> models) {
    return models.stream().mapToInt(m -> m.n).max().orElse(0);
  }

  private static @Nullable WarmUp warmUp(SeriesModel m, double pAdjusted, double half) {
    WarmUp w = m.warmUp;
    return w != null && m.model.warmUp() && pAdjusted <= half ? w.adjusted(pAdjusted) : null;
  }

  // Steps at found times whose own tests pass, and steps at events that pass alone.
  private static List<Change> changes(
      SeriesModel m,
      List<KnownEvent> events,
      List<EventStep> steps,
      double[] changePAdjusted,
      double half) {
    List<Change> found = new ArrayList<>();
    for (int k = 0; m.slow.kind().hasSteps() && k < changePAdjusted.length; k++) {
      if (changePAdjusted[k] <= half) {
        found.add(m.change(k, events));
      }
    }
    for (EventStep s : steps) {
      boolean known = found.stream().anyMatch(c -> Math.abs(c.index() - s.index()) <= 3);
      if (s.pAdjusted() <= half && !known) {
        found.add(m.change(s.index(), s.size(), s.standardError(), events));
      }
    }
    found.sort(Comparator.comparing(Change::at));
    return found;
  }

  private static List<ExcessSpread> repeatability(List<SeriesModel> models) {
    List<ExcessSpread> r = new ArrayList<>();
    for (SeriesModel m : models) {
      String name = m.series.name();
      boolean registers = FixedTerm.isRegistration(name);
      if (registers && m.n >= SeriesModel.FEWEST) {
        r.add(m.excess());
      }
    }
    return r;
  }

  // A count of placements since service that falls tells of a service in between.
  private static List<KnownEvent> withServices(List<DriftSeries> series, List<KnownEvent> given) {
    Map<java.time.Instant, Double> since = new TreeMap<>();
    for (DriftSeries s : series) {
      for (SeriesPoint p : s.points()) {
        if (Double.isFinite(p.placementsSinceService())) {
          since.put(p.at(), p.placementsSinceService());
        }
      }
    }
    List<KnownEvent> all = new ArrayList<>(given);
    double before = Double.NaN;
    java.time.Instant last = java.time.Instant.MIN;
    for (Map.Entry<java.time.Instant, Double> e : since.entrySet()) {
      java.time.Instant from = last;
      boolean told =
          given.stream()
              .anyMatch(
                  g ->
                      g.kind() == KnownEvent.Kind.SERVICE
                          && g.at().isAfter(from)
                          && !g.at().isAfter(e.getKey()));
      if (e.getValue() < before && !told) {
        all.add(new KnownEvent(e.getKey(), KnownEvent.Kind.SERVICE, "", "service"));
      }
      before = e.getValue();
      last = e.getKey();
    }
    all.sort(Comparator.comparing(KnownEvent::at));
    return all;
  }

  private static List<String> notes(List<SeriesDrift> results, int charted) {
    List<String> notes = new ArrayList<>();
    if (charted < results.size()) {
      notes.add(
          (results.size() - charted)
              + " series have fewer than "
              + FEWEST_FOR_CHARTS
              + " articles and are not charted yet.");
    }
    for (SeriesDrift d : results) {
      if (d.base() != null) {
        SeriesPoint first = d.series().points().get(0);
        SeriesPoint last = d.series().points().get(d.base().count() - 1);
        notes.add(
            "Limits come from the first "
                + d.base().count()
                + " articles, "
                + SpelledNumbers.day(first.at())
                + " to "
                + SpelledNumbers.day(last.at())
                + "; what was already wrong then is not seen by the charts.");
        break;
      }
    }
    boolean temperature = results.stream().anyMatch(d -> d.temperature() != null);
    if (!temperature && charted > 0) {
      notes.add(
          "Temperature was not recorded or did not vary: drift with temperature cannot be told from"
              + " drift in time.");
    }
    return notes;
  }
}
