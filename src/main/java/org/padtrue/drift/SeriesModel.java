package org.padtrue.drift;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.cause.CauseModel;
import org.padtrue.drift.cause.CauseSearch;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.cause.Environment;
import org.padtrue.drift.cause.SlowPart;
import org.padtrue.drift.cause.StepSearch;
import org.padtrue.drift.cause.SupF;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.EventStep;
import org.padtrue.drift.series.KnownEvent;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.Trend;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.numeric.Order;
import org.padtrue.numeric.Regression;
import org.padtrue.numeric.Tail;

/**
 * Takes one series apart: slow part, temperature and warm-up by {@link CauseSearch}, anew with the
 * spread that the model leaves until it stays the same. Holds the p values before the family is
 * known, each beside everything else that is in the model.
 */
final class SeriesModel {
  private static final double MILLIS_PER_DAY = 86_400_000.0;
  private static final int ROUNDS = 3;

  /** Events closer together than this many points cannot be told apart. */
  private static final int BETWEEN_EVENTS = 3;

  /** Fewer points than this are charted only. */
  static final int FEWEST = 6;

  final DriftSeries series;
  final int n;
  final double[] days;
  final double[] y;
  final double[] se;
  final double[] adjusted;
  final double[] sigma;
  final SlowPart slow;
  final CauseModel model;
  final @Nullable TrendEffect trend;
  final @Nullable TemperatureEffect temperature;
  final @Nullable WarmUp warmUp;

  /** Of each found step; of the best place of one when none is in the model. */
  final double[] changeP;

  final List<EventStep> eventSteps;

  private SeriesModel(Data d, double[] sigma, CauseModel model, List<Placed> placed) {
    this.series = d.series;
    this.n = d.y.length;
    this.days = d.days;
    this.y = d.y;
    this.se = d.se;
    this.sigma = sigma;
    this.model = model;
    this.slow = model.slow();
    this.adjusted = minus(d.y, model.environment());
    boolean tested = n >= FEWEST;
    this.trend = tested ? trend() : null;
    this.temperature = tested ? temperature(d.environment) : null;
    this.warmUp = tested ? warmUp(d.environment) : null;
    this.changeP = tested ? changeP() : new double[0];
    this.eventSteps = tested ? eventSteps(placed) : List.of();
  }

  /** The series as columns. */
  private record Data(
      DriftSeries series, double[] days, double[] y, double[] se, Environment environment) {
    static Data of(DriftSeries s) {
      int n = s.points().size();
      double[] temperature = s.points().stream().mapToDouble(SeriesPoint::temperatureC).toArray();
      double[] running = s.points().stream().mapToDouble(SeriesPoint::minutesRunning).toArray();
      Data d =
          new Data(
              s,
              new double[n],
              new double[n],
              new double[n],
              new Environment(temperature, running));
      Instant first = n == 0 ? Instant.EPOCH : s.points().get(0).at();
      for (int i = 0; i < n; i++) {
        SeriesPoint p = s.points().get(i);
        d.days[i] = Duration.between(first, p.at()).toMillis() / MILLIS_PER_DAY;
        d.y[i] = p.state();
        d.se[i] = p.standardError();
      }
      fillUnknown(d.se);
      return d;
    }
  }

  // A point that does not say how sure it is counts like the middle one of those that do.
  private static void fillUnknown(double[] se) {
    double[] known = Arrays.stream(se).filter(v -> v >= 0 && Double.isFinite(v)).toArray();
    double stand = known.length == 0 ? 0 : Order.median(known);
    for (int i = 0; i < se.length; i++) {
      if (!(se[i] >= 0 && Double.isFinite(se[i]))) {
        se[i] = stand;
      }
    }
  }

  static SeriesModel of(DriftSeries series, List<KnownEvent> events) {
    Data d = Data.of(series);
    int n = d.y.length;
    double[] sigma = sigma(d.y, d.se);
    if (n < FEWEST) {
      SlowPart level = SlowPart.of(d.days, false, new int[0], new int[0]);
      Regression fit = Regression.fit(level.columns(), d.y, sigma);
      CauseModel steady = new CauseModel(level, false, Double.NaN, fit, level.columns(), 0);
      return new SeriesModel(d, sigma, steady, List.of());
    }
    List<KnownEvent> mine = events.stream().filter(e -> e.touches(series)).toList();
    List<Placed> placed = place(mine, series, n);
    int[] known = placed.stream().mapToInt(Placed::index).toArray();
    CauseModel model = search(d, sigma, known);
    for (int round = 1; round < ROUNDS; round++) {
      sigma = sigma(minus(d.y, model.environment()), d.se);
      CauseModel next = search(d, sigma, known);
      boolean same = next.sameAs(model);
      model = next;
      if (same) {
        break;
      }
    }
    return new SeriesModel(d, sigma, model, placed);
  }

  private static CauseModel search(Data d, double[] sigma, int[] known) {
    Environment e = d.environment;
    return new CauseSearch(d.days, d.y, sigma, e.temperature, e.running, known).best();
  }

  /** Robust where it stands alone in time; beside steps by the model. */
  private @Nullable TrendEffect trend() {
    if (days[n - 1] <= days[0]) {
      return null;
    }
    if (slow.starts().length == 0) {
      Trend t = Trend.fit(days, adjusted, sigma, 0.95);
      return new TrendEffect(t.slope(), t.low(), t.high(), t.p(), Double.NaN);
    }
    boolean in = slow.kind().hasTrend();
    double[][] columns = in ? model.columns() : CauseSearch.append(model.columns(), days);
    Regression fit = in ? model.fit() : Regression.fit(columns, y, sigma);
    int j = in ? 1 : columns.length - 1;
    if (fit.degreesOfFreedom() < 1 || !Double.isFinite(fit.standardError(j))) {
      return null;
    }
    double reach = Tail.tTwoSidedQuantile(0.05, fit.degreesOfFreedom()) * fit.standardError(j);
    return new TrendEffect(
        fit.beta[j], fit.beta[j] - reach, fit.beta[j] + reach, fit.p(j), Double.NaN);
  }

  private @Nullable TemperatureEffect temperature(Environment e) {
    if (e.temperature.length == 0 || model.columns().length + 3 > n) {
      return null;
    }
    return model.temperature()
        ? TemperatureEffect.of(model.fit(), slow.columns().length)
        : TemperatureEffect.of(
            Regression.fit(CauseSearch.append(model.columns(), e.temperature), y, sigma),
            model.columns().length);
  }

  private @Nullable WarmUp warmUp(Environment e) {
    if (e.running.length == 0 || model.columns().length + 4 > n) {
      return null;
    }
    return model.warmUp()
        ? WarmUp.of(e.running, y, sigma, model.without(model.columns().length - 1), model.minutes())
        : WarmUp.fit(e.running, y, sigma, model.columns());
  }

  private double[] changeP() {
    int min = SlowPart.minSegment(n);
    if (n / min < 2) {
      return new double[0];
    }
    double trim = Math.min((double) min / n, 0.45);
    if (slow.kind().hasSteps()) {
      double[] p = new double[slow.starts().length];
      for (int k = 0; k < p.length; k++) {
        int j = slow.columns().length - p.length + k;
        double without = Regression.fit(model.without(j), y, sigma).rss;
        p[k] = changeP(without - model.fit().rss, model.fit().rss, model.fit().rank, trim);
      }
      return p;
    }
    StepSearch.Place best = new StepSearch(y, sigma, min).add(model.columns(), new int[0]);
    double rss = model.fit().rss - best.gain();
    return new double[] {changeP(best.gain(), rss, model.fit().rank + 1, trim)};
  }

  private double changeP(double gain, double rss, int rank, double trim) {
    if (!(gain > 0)) {
      return 1;
    }
    double df = n - rank;
    return rss <= 0 ? 0 : SupF.pOf(gain / (rss / df), df, trim);
  }

  // Standard deviation of each point when nothing drifts; never 0, so that it can be divided by.
  private static double[] sigma(double[] y, double[] se) {
    double sd = y.length < 2 ? 0 : BaseEstimate.processSd(y, se);
    double[] s = new double[y.length];
    double top = 0;
    for (int i = 0; i < s.length; i++) {
      s[i] = Math.hypot(sd, se[i]);
      top = Math.max(top, s[i]);
    }
    for (int i = 0; i < s.length; i++) {
      s[i] = top > 0 ? Math.max(s[i], 1e-3 * top) : 1;
    }
    return s;
  }

  private static double[] minus(double[] a, double[] b) {
    double[] c = new double[a.length];
    for (int i = 0; i < c.length; i++) {
      c[i] = a[i] - b[i];
    }
    return c;
  }

  private record Placed(KnownEvent event, int index) {}

  // First point at or after each event, where enough points lie on both sides.
  private static List<Placed> place(List<KnownEvent> events, DriftSeries series, int n) {
    List<Placed> placed = new ArrayList<>();
    int last = 0;
    for (KnownEvent e : events) {
      int i = 0;
      while (i < n && series.points().get(i).at().isBefore(e.at())) {
        i++;
      }
      if (i - last >= BETWEEN_EVENTS && n - i >= BETWEEN_EVENTS) {
        placed.add(new Placed(e, i));
        last = i;
      }
    }
    return placed;
  }

  /** What each known event did, beside all else that is in the model. */
  private List<EventStep> eventSteps(List<Placed> placed) {
    int[] starts = placed.stream().mapToInt(Placed::index).toArray();
    double[][] columns =
        SlowPart.of(days, slow.kind().hasTrend(), new int[0], new int[0]).columns();
    if (slow.kind().hasSteps()) {
      // steps found elsewhere are real too, and must not be put down to an event
      int[] elsewhere =
          Arrays.stream(slow.starts())
              .filter(i -> Arrays.stream(starts).noneMatch(s -> Math.abs(s - i) <= 2))
              .toArray();
      columns = SlowPart.with(columns, elsewhere, n);
    }
    for (int j = slow.columns().length; j < model.columns().length; j++) {
      columns = CauseSearch.append(columns, model.columns()[j]);
    }
    int offset = columns.length;
    if (placed.isEmpty() || offset + starts.length + 2 > n) {
      return List.of();
    }
    Regression fit = Regression.fit(SlowPart.with(columns, starts, n), y, sigma);
    List<EventStep> found = new ArrayList<>();
    for (int k = 0; k < starts.length; k++) {
      int c = offset + k;
      found.add(
          new EventStep(
              placed.get(k).event(),
              starts[k],
              fit.beta[c],
              fit.standardError(c),
              fit.p(c),
              Double.NaN));
    }
    return found;
  }

  /** A step at a time found, the k-th of the model, against the level before. */
  Change change(int k, List<KnownEvent> events) {
    int j = slow.columns().length - slow.starts().length + k;
    return change(slow.starts()[k], model.fit().beta[j], model.fit().standardError(j), events);
  }

  /** A step at a point, with the known event just before it, if any. */
  Change change(int i, double size, double error, List<KnownEvent> events) {
    Instant before = series.points().get(Math.max(0, i - 1)).at();
    Instant at = series.points().get(i).at();
    // the place of a small step is known to an article or two
    Instant from = series.points().get(Math.max(0, i - 3)).at();
    Instant to = series.points().get(Math.min(n - 1, i + 2)).at();
    KnownEvent near = null;
    for (KnownEvent e : events) {
      if (e.touches(series) && !e.at().isBefore(from) && !e.at().isAfter(to)) {
        near = e;
      }
    }
    return new Change(at, before, i, size, error, near);
  }

  /** Forecast of a line, at the observed level with the trims now in force. */
  @Nullable Forecast forecast(double limit) {
    if (!slow.kind().hasTrend() || !(limit > 0)) {
      return null;
    }
    double[][] columns = slow.columns().clone();
    double[] fromLast = new double[n];
    for (int i = 0; i < n; i++) {
      fromLast[i] = days[i] - days[n - 1];
    }
    columns[1] = fromLast;
    for (int k = 2; k < columns.length; k++) {
      // levels counted from the last one, so that the constant is today's
      double[] c = columns[k].clone();
      for (int i = 0; i < n; i++) {
        c[i] -= 1;
      }
      columns[k] = c;
    }
    Regression fit = Regression.fit(columns, adjusted, sigma);
    double v = fit.unitVariance();
    SeriesPoint last = series.points().get(n - 1);
    double trims = last.value() - last.state();
    return Forecast.of(
        last.at(),
        fit.beta[0] + trims,
        fit.beta[1],
        fit.covariance[0][0] * v,
        fit.covariance[0][1] * v,
        fit.covariance[1][1] * v,
        fit.degreesOfFreedom(),
        limit);
  }

  /** Spread beyond the standard errors, with what is explained taken off. */
  ExcessSpread excess() {
    Regression fit = Regression.fit(slow.columns(), adjusted, sigma);
    double[] rest = minus(adjusted, fit.fitted);
    boolean plain = fit.rank == 1;
    double inflate = plain ? 1 : Math.sqrt((n - 1.0) / Math.max(1, n - fit.rank));
    double[] r = new double[n];
    double[] s = new double[n];
    double top = Arrays.stream(se).max().orElse(0);
    for (int i = 0; i < n; i++) {
      r[i] = rest[i] * inflate;
      s[i] = Math.max(se[i], top > 0 ? 1e-6 * top : 1e-12);
    }
    ExcessVariance e = ExcessVariance.reml(r, s);
    return new ExcessSpread(
        series.name(),
        series.unit(),
        Math.sqrt(e.variance()),
        Math.sqrt(e.low()),
        Math.sqrt(e.high()),
        n,
        "REML over articles"
            + (plain ? "" : ", trend or steps taken off")
            + (model.temperature() || model.warmUp() ? ", temperature and warm-up taken off" : ""));
  }
}
