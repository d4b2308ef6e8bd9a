package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.log.DriftStudy;
import org.padtrue.log.SeriesNames;
import org.padtrue.report.words.DriftWords;
import org.padtrue.web.server.ShownNumbers;

/**
 * What drifts on a machine.
 *
 * @param machine its name, empty while there is no log
 * @param job the job, empty for all
 * @param machines to choose from
 * @param jobs likewise
 * @param headline the answer
 * @param facts articles, days, series
 * @param hints causes with their evidence
 * @param steady what is to be left alone
 * @param registers how well panels are registered, or empty
 * @param notes what else a reader should know
 * @param sure how false alarms are held
 * @param cautions before anything is changed
 * @param plots series that show something, and the scales and shifts
 * @param scatters temperature and warm-up where they were found
 * @param rows every series
 */
public record DriftView(
    String machine,
    String job,
    List<String> machines,
    List<String> jobs,
    String headline,
    String facts,
    List<HintLine> hints,
    String steady,
    String registers,
    List<String> notes,
    String sure,
    List<String> cautions,
    List<SeriesPlot> plots,
    List<ScatterPlot> scatters,
    List<Row> rows) {
  private static final int MOST_PLOTS = 8;
  private static final int MOST_SCATTERS = 4;

  public DriftView {
    machines = List.copyOf(machines);
    jobs = List.copyOf(jobs);
    hints = List.copyOf(hints);
    notes = List.copyOf(notes);
    cautions = List.copyOf(cautions);
    plots = List.copyOf(plots);
    scatters = List.copyOf(scatters);
    rows = List.copyOf(rows);
  }

  /** A likely cause, what is seen, what to do, and the series that show it. */
  public record HintLine(String cause, String seen, String action, List<Link> series) {
    public HintLine {
      series = List.copyOf(series);
    }
  }

  /** A series and the address of its page. */
  public record Link(String name, String address) {}

  /**
   * One series in numbers.
   *
   * @param state last one of the machine
   * @param verdict drifts, signals, steady or cannot be told
   */
  public record Row(
      String name,
      String address,
      int articles,
      String observed,
      String state,
      String trend,
      String perKelvin,
      String unit,
      String since,
      String forecast,
      String verdict,
      boolean marked) {}

  /** Nothing recorded yet. */
  static DriftView empty() {
    return new DriftView(
        "", "", List.of(), List.of(), "", "", List.of(), "", "", List.of(), "", List.of(),
        List.of(), List.of(), List.of());
  }

  static DriftView of(DriftStudy s, List<String> machines, List<String> jobs) {
    Set<String> named = DriftWords.named(s);
    int n = s.articles().size();
    int quiet = DriftWords.quiet(s).size();
    boolean charted = s.drift().family().charts() > 0;
    String r = DriftWords.repeatability(s);
    return new DriftView(
        s.machine(),
        s.job() == null ? "" : s.job(),
        machines,
        jobs,
        DriftWords.headline(s),
        ShownNumbers.count(n, "article")
            + ", "
            + DriftWords.day(s.from())
            + " to "
            + DriftWords.day(s.to())
            + ", "
            + s.drift().series().size()
            + " series",
        s.drift().hints().stream().map(h -> hint(s, h)).toList(),
        charted && !s.drift().hints().isEmpty()
            ? "the other " + quiet + " series; leave them alone."
            : "",
        DriftWords.page(r),
        DriftWords.notes(s).stream().map(DriftWords::page).toList(),
        s.drift().family().sentence(),
        DriftWords.CAUTIONS,
        shown(s, named).stream().map(SeriesPlot::of).toList(),
        scatters(s, null),
        s.drift().series().stream().map(d -> row(s, d, named)).toList());
  }

  private static HintLine hint(DriftStudy s, Hint h) {
    return new HintLine(
        DriftWords.cause(h.cause()),
        DriftWords.page(h.sentence()),
        DriftWords.page(h.action()),
        h.series().stream().map(n -> new Link(SeriesWords.name(n), address(s, n))).toList());
  }

  /** Address of the page of one series. */
  static String address(DriftStudy s, String name) {
    Map<String, String> m = new LinkedHashMap<>();
    m.put("machine", s.machine());
    m.put("job", s.job() == null ? "" : s.job());
    m.put("name", name);
    return LogFilter.address("/drift/series", m);
  }

  /** Series with hints, then those whose charts signal, then the scales and shifts. */
  private static List<SeriesDrift> shown(DriftStudy s, Set<String> named) {
    Set<String> names = new LinkedHashSet<>(named);
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
    return out.subList(0, Math.min(MOST_PLOTS, out.size()));
  }

  /** Temperature and warm-up where they were found, of all series or of one. */
  static List<ScatterPlot> scatters(DriftStudy s, @Nullable String only) {
    List<ScatterPlot> all = new ArrayList<>();
    for (SeriesDrift d : s.drift().series()) {
      if (only != null && !only.equals(d.name())) {
        continue;
      }
      TemperatureEffect t = d.temperature();
      if (t != null && d.followsTemperature(s.drift().family().half())) {
        all.add(ScatterPlot.temperature(d, t));
      }
      WarmUp w = d.warmUp();
      if (w != null) {
        all.add(ScatterPlot.warmUp(d, w));
      }
    }
    return all.subList(0, Math.min(MOST_SCATTERS, all.size()));
  }

  private static Row row(DriftStudy s, SeriesDrift d, Set<String> named) {
    List<SeriesPoint> p = d.series().points();
    Amount a = Amount.of(d.series().unit());
    TrendEffect trend = d.trend();
    TemperatureEffect t = d.temperature();
    SeriesPoint last = p.isEmpty() ? null : p.get(p.size() - 1);
    boolean drifts = named.contains(d.name());
    String verdict =
        drifts
            ? "drifts"
            : !d.signals().isEmpty() ? "signals" : d.charts().isEmpty() ? "too few" : "steady";
    return new Row(
        SeriesWords.framed(d.name()),
        address(s, d.name()),
        p.size(),
        last == null ? ShownNumbers.UNKNOWN : a.value(last.value(), last.standardError()),
        last == null ? ShownNumbers.UNKNOWN : a.value(last.state(), last.standardError()),
        trend == null
            ? ShownNumbers.UNKNOWN
            : plusMinus(a, trend.perDay(), 0.25 * (trend.high() - trend.low())),
        t == null ? ShownNumbers.UNKNOWN : plusMinus(a, t.slope(), t.standardError()),
        a.unit(),
        d.signals().isEmpty() ? "" : DriftWords.day(d.signals().get(0).since()),
        DriftWords.forecast(d.forecast()),
        verdict,
        drifts || !d.signals().isEmpty());
  }

  private static String plusMinus(Amount a, double v, double se) {
    return a.value(v, se) + " \u00b1 " + a.error(v, se);
  }
}
