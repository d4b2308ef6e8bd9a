package org.padtrue.drift;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.chart.ChartLimits;
import org.padtrue.drift.chart.ChartPoint;
import org.padtrue.drift.chart.ControlChart;
import org.padtrue.drift.chart.CusumChart;
import org.padtrue.drift.chart.EwmaChart;
import org.padtrue.drift.chart.IndividualsChart;
import org.padtrue.drift.chart.RunRules;
import org.padtrue.drift.chart.Signal;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.hint.SpelledNumbers;

/** Draws the charts of one series and says where they left their limits. */
final class SeriesCharts {
  /** Charts whose false alarms the family counts: individuals, EWMA, CUSUM. */
  static final int COUNTED = 3;

  /** Usual limit of the moving-range chart, which is drawn but not counted. */
  private static final double RANGE_LIMIT = 3;

  final List<ControlChart> charts;
  final List<Signal> signals;
  final List<RunRules.Hit> rules;

  private final SeriesModel model;

  SeriesCharts(SeriesModel model, BaseEstimate base, ChartLimits limits, DriftOptions options) {
    this.model = model;
    double[] y = model.y;
    double[] sigma = sigma(model, base);
    double[] z = new double[y.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = (y[i] - base.centre()) / sigma[i];
    }
    ControlChart individuals = individuals(y, sigma, base.centre(), limits.individuals());
    ControlChart ewma = EwmaChart.of(y, sigma, base.centre(), options.lambda(), limits.ewma());
    CusumChart cusum = CusumChart.of(y, sigma, base.centre(), options.cusumK(), limits.cusum());
    charts =
        List.of(
            individuals,
            IndividualsChart.movingRanges(y, model.se, base, RANGE_LIMIT),
            ewma,
            cusum.up(),
            cusum.down());
    rules = RunRules.nelson(z);
    signals = new ArrayList<>();
    individuals.starts().forEach(p -> signals.add(outside("individuals", p, p.index())));
    ewma.starts().forEach(p -> signals.add(outside("ewma", p, ewmaStart(ewma, p.index()))));
    cusum.up().starts().forEach(p -> signals.add(sum(cusum.up(), p, base, cusum, 1)));
    cusum.down().starts().forEach(p -> signals.add(sum(cusum.down(), p, base, cusum, -1)));
    signals.sort(Comparator.comparing(Signal::at));
  }

  // A base that does not vary at all gives no spread; any later change is then a signal.
  private static double[] sigma(SeriesModel model, BaseEstimate base) {
    double[] s = new double[model.n];
    double floor = 1e-9 * Math.max(1e-3, Math.abs(base.centre()));
    for (int i = 0; i < s.length; i++) {
      s[i] = Math.max(base.sigma(model.se[i]), floor);
    }
    return s;
  }

  private static ControlChart individuals(double[] y, double[] sigma, double centre, double limit) {
    List<ChartPoint> points = new ArrayList<>();
    for (int i = 0; i < y.length; i++) {
      points.add(ChartPoint.of(i, y[i], centre, limit * sigma[i]));
    }
    return new ControlChart("individuals", points);
  }

  private static int ewmaStart(ControlChart ewma, int index) {
    double side = Math.signum(ewma.points().get(index).value() - ewma.points().get(index).centre());
    int i = index;
    while (i > 0
        && side * (ewma.points().get(i - 1).value() - ewma.points().get(i - 1).centre()) > 0) {
      i--;
    }
    return i;
  }

  private Signal outside(String chart, ChartPoint p, int start) {
    String unit = model.series.unit();
    // a fifth of the way to the limit is finer than anyone acts on
    double of = 0.2 * (p.upper() - p.centre());
    double limit = p.value() > p.upper() ? p.upper() : p.lower();
    String what = chart.equals("ewma") ? "EWMA (moving average)" : "article";
    return signal(
        p,
        chart,
        start,
        String.format(
            "%s: the %s at %s stands at %s, limit %s, centre %s.",
            SeriesWords.framed(model.series.name()),
            what,
            SpelledNumbers.time(at(p.index())),
            SpelledNumbers.signed(p.value(), unit, of),
            SpelledNumbers.signed(limit, unit, of),
            SpelledNumbers.signed(p.centre(), unit, of)));
  }

  private Signal sum(ControlChart side, ChartPoint p, BaseEstimate base, CusumChart c, int sign) {
    int start = CusumChart.climbStart(side, p.index());
    double shift = 0;
    double weight = 0;
    for (int i = start; i <= p.index(); i++) {
      double w = 1 / Math.max(1e-300, Math.pow(base.sigma(model.se[i]), 2));
      shift += w * (model.y[i] - base.centre());
      weight += w;
    }
    return signal(
        p,
        "cusum",
        start,
        String.format(
            "%s: since %s the CUSUM (sum of what is %s the base) has grown past its limit; the"
                + " level is %s off on average (the CUSUM counts in units of %s).",
            SeriesWords.framed(model.series.name()),
            SpelledNumbers.time(at(start)),
            sign > 0 ? "above" : "below",
            SpelledNumbers.signed(shift / weight, model.series.unit(), 0.5 * c.sigmaRef()),
            SpelledNumbers.value(c.sigmaRef(), model.series.unit())));
  }

  private Signal signal(ChartPoint p, String chart, int start, String sentence) {
    return new Signal(at(p.index()), p.index(), chart, at(start), sentence);
  }

  private Instant at(int i) {
    return model.series.points().get(i).at();
  }
}
