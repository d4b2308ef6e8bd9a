package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.log.DriftStudy;
import org.padtrue.report.words.DriftWords;

/**
 * One series in full.
 *
 * @param machine its machine
 * @param name of the series
 * @param back address of the page of the machine
 * @param said what it shows, one sentence each; after a plus-minus stands one standard error
 * @param plot over time
 * @param scatters against temperature, after the start
 * @param points every article, newest first
 */
public record DriftSeriesView(
    String machine,
    String name,
    String back,
    List<String> said,
    SeriesPlot plot,
    List<ScatterPlot> scatters,
    List<Point> points) {
  public DriftSeriesView {
    said = List.copyOf(said);
    scatters = List.copyOf(scatters);
    points = List.copyOf(points);
  }

  /** One article's point in numbers. */
  public record Point(
      String article, String at, String state, String error, String observed, String remark) {}

  static DriftSeriesView of(DriftStudy s, SeriesDrift d) {
    Map<String, String> back = new LinkedHashMap<>();
    back.put("machine", s.machine());
    back.put("job", s.job() == null ? "" : s.job());
    SeriesPlot plot = SeriesPlot.of(d);
    return new DriftSeriesView(
        s.machine(),
        SeriesWords.framed(d.name()),
        LogFilter.address("/drift", back),
        said(s, d),
        plot,
        DriftView.scatters(s, d.name()),
        points(d, plot));
  }

  private static List<String> said(DriftStudy s, SeriesDrift d) {
    List<String> all = new ArrayList<>();
    String plus = SeriesWords.plus(d.name());
    for (Hint h : s.drift().hints()) {
      if (h.series().contains(d.name())) {
        all.add(DriftWords.page(h.sentence()) + " " + DriftWords.page(h.action()));
      }
    }
    Amount a = Amount.of(d.series().unit());
    for (Change c : all.isEmpty() ? d.changes() : List.<Change>of()) {
      String event = c.event() == null ? "" : ", after " + c.event().what();
      all.add(
          "A step of "
              + a.both(c.size(), c.standardError())
              + " between "
              + SeriesPlot.time(c.previous())
              + " and "
              + SeriesPlot.time(c.at())
              + event
              + ".");
    }
    String f = DriftWords.forecast(d.forecast());
    if (!f.isEmpty()) {
      all.add("Reaches its no-adjustment limit: " + f + ".");
    }
    if (all.isEmpty()) {
      all.add(
          d.charts().isEmpty()
              ? "Too few articles to tell yet: limits need eight or more."
              : d.signals().isEmpty()
                  ? "Steady; leave it alone."
                  : "It left its limits, but no cause is clear.");
    }
    if (!plus.isEmpty()) {
      all.add(plus.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + plus.substring(1) + ".");
    }
    return all;
  }

  private static List<Point> points(SeriesDrift d, SeriesPlot plot) {
    Amount a = Amount.of(d.series().unit());
    List<Point> all = new ArrayList<>();
    for (int i = d.series().points().size() - 1; i >= 0; i--) {
      var p = d.series().points().get(i);
      all.add(
          new Point(
              p.article(),
              SeriesPlot.time(p.at()),
              a.value(p.state(), p.standardError()),
              a.error(p.state(), p.standardError()),
              a.value(p.value(), p.standardError()),
              plot.dots().get(i).out() ? "beyond the limits" : ""));
    }
    return all;
  }
}
