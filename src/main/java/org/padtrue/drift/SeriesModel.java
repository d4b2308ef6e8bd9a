package org.padtrue.drift;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Takes one series apart: slow part, temperature, warm-up, in turn until the slow part stays the
 * same. Holds the p values before the family is known.
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
  final Environment environment;
  final @Nullable TrendEffect trend;
  final double changeP;
  final List<EventStep> eventSteps;

  private SeriesModel(
      Data d,
      double[] adjusted,
      double[] sigma,
      SlowPart slow,
      Environment environment,
      @Nullable TrendEffect trend,
      double changeP,
      List<EventStep> eventSteps) {
    this.series = d.series;
    this.n = d.y.length;
    this.days = d.days;
    this.y = d.y;
    this.se = d.se;
    this.adjusted = adjusted;
    this.sigma = sigma;
    this.slow = slow;
    this.environment = environment;
    this.trend = trend;
    this.changeP = changeP;
    this.eventSteps = eventSteps;
  }

  /** The series as columns. */
  private record Data(
      DriftSeries series,
      double[] days,
      double[] y,
      double[] se,
      double[] temperature,
      double[] running) {
    static Data of(DriftSeries s) {
      int n = s.points().size();
      Data d =
          new Data(s, new double[n], new double[n], new double[n], new double[n], new double[n]);
      Instant first = n == 0 ? Instant.EPOCH : s.points().get(0).at();
      for (int i = 0; i < n; i++) {
        SeriesPoint p = s.points().get(i);
        d.days[i] = Duration.between(first, p.at()).toMillis() / MILLIS_PER_DAY;
        d.y[i] = p.state();
        d.se[i] = p.standardError();
        d.temperature[i] = p.temperatureC();
        d.running[i] = p.minutesRunning();
      }
      fillUnknown(d.se);
      return d;
    }
  }

  // A point that does not say how sure it is counts like the middle one of those that do.
  private static void fillUnknown(double[] se) {
    double[] known = Arrays.stream(se).filter(v -> v >= 0 && Double.isFinite(v)).toArray();
    double stand = known.length == 0 ? 0 : TheilSen.median(known);
    for (int i = 0; i < se.length; i++) {
      if (!(se[i] >= 0 && Double.isFinite(se[i]))) {
        se[i] = stand;
      }
    }
  }

  static SeriesModel of(DriftSeries series, List<KnownEvent> events) {
    Data d = Data.of(series);
    int n = d.y.length;
    if (n < FEWEST) {
      return new SeriesModel(
          d,
          d.y,
          sigma(d.y, d.se),
          new SlowPart(SlowKind.STEADY, new double[][] {SlowPart.ones(n)}, new int[0]),
          new Environment(null, null, new double[n]),
          null,
          Double.NaN,
          List.of());
    }
    List<KnownEvent> mine = events.stream().filter(e -> e.touches(series)).toList();
    List<Placed> placed = place(mine, series, n);
    int[] starts = placed.stream().mapToInt(Placed::index).toArray();
    SlowPart slow = SlowPart.line(d.days);
    double[] sigma = sigma(d.y, d.se);
    Environment env = Environment.fit(d.y, sigma, slow.columns(), d.temperature, d.running);
    double[] adjusted = minus(d.y, env.contribution());
    List<Segmentation> cuts = List.of();
    for (int round = 0; round < ROUNDS; round++) {
      sigma = sigma(adjusted, d.se);
      cuts = SlowPart.segmentations(adjusted, sigma);
      SlowPart next = SlowPart.choose(d.days, adjusted, sigma, starts, cuts);
      boolean same = next.sameAs(slow);
      slow = next;
      if (same) {
        break;
      }
      env = Environment.fit(d.y, sigma, slow.columns(), d.temperature, d.running);
      adjusted = minus(d.y, env.contribution());
    }
    return new SeriesModel(
        d,
        adjusted,
        sigma,
        slow,
        env,
        trend(d.days, adjusted, sigma),
        changeP(cuts, n),
        eventSteps(placed, d.days, adjusted, sigma, slow));
  }

  private static @Nullable TrendEffect trend(double[] days, double[] y, double[] sigma) {
    if (days[days.length - 1] <= days[0]) {
      return null;
    }
    Trend t = Trend.fit(days, y, sigma, 0.95);
    return new TrendEffect(t.slope(), t.low(), t.high(), t.p(), Double.NaN);
  }

  private static double changeP(List<Segmentation> cuts, int n) {
    if (cuts.size() < 2) {
      return Double.NaN;
    }
    double rss0 = cuts.get(0).rss();
    double rss1 = cuts.get(1).rss();
    if (rss0 <= 0) {
      return 1;
    }
    double trim = (double) SlowPart.minSegment(n) / n;
    return rss1 <= 0 ? 0 : SupF.p(SupF.statistic(rss0, rss1, n), n, Math.min(trim, 0.45));
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

  private static List<EventStep> eventSteps(
      List<Placed> placed, double[] days, double[] y, double[] sigma, SlowPart slow) {
    int n = y.length;
    if (placed.isEmpty() || placed.size() + 3 > n) {
      return List.of();
    }
    int[] starts = placed.stream().mapToInt(Placed::index).toArray();
    double[][] columns = SlowPart.join(SlowPart.ones(n), SlowPart.steps(n, starts));
    if (slow.kind().hasTrend()) {
      columns = SlowPart.join(days, columns);
    }
    if (slow.kind() == SlowKind.STEPS) {
      // steps found elsewhere are real too, and must not be laid at the door of an event
      int[] elsewhere =
          Arrays.stream(slow.starts())
              .filter(i -> Arrays.stream(starts).noneMatch(s -> Math.abs(s - i) <= 2))
              .toArray();
      for (double[] c : SlowPart.steps(n, elsewhere)) {
        columns = SlowPart.join(c, columns);
      }
    }
    Regression fit = Regression.fit(columns, y, sigma);
    int offset = columns.length - starts.length;
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

  /** Steps at times found, each against the level before. */
  List<Change> changes(List<KnownEvent> events) {
    if (slow.kind() != SlowKind.STEPS) {
      return List.of();
    }
    Regression fit = Regression.fit(slow.columns(), adjusted, sigma);
    List<Change> changes = new ArrayList<>();
    for (int k = 0; k < slow.starts().length; k++) {
      int i = slow.starts()[k];
      changes.add(change(i, fit.beta[k + 1], fit.standardError(k + 1), events));
    }
    return changes;
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
    RandomEffects e = RandomEffects.reml(r, s);
    return new ExcessSpread(
        series.name(),
        series.unit(),
        Math.sqrt(e.variance()),
        Math.sqrt(e.low()),
        Math.sqrt(e.high()),
        n,
        "REML over articles"
            + (plain ? "" : ", trend or steps taken off")
            + (Arrays.stream(environment.contribution()).allMatch(v -> v == 0)
                ? ""
                : ", temperature and warm-up taken off"));
  }
}
