package org.padtrue.report.json;

import java.io.IOException;
import java.io.OutputStream;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.Forecast;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.chart.ChartLimits;
import org.padtrue.drift.chart.FamilyControl;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.log.DriftStudy;
import org.padtrue.report.words.DriftWords;

/**
 * {@code drift.json}: every series with its points and what they show, for other programs.
 *
 * <p>Units as each series names them; times are UTC; an unknown is null; lists are present even
 * when empty. Keys may be added, never renamed or dropped.
 */
public final class DriftJson {
  /** Value of the key {@code schema}. */
  public static final String SCHEMA = "padtrue/drift/1";

  private DriftJson() {}

  /** Writes a study; the stream is closed. */
  public static void write(DriftStudy s, OutputStream stream) throws IOException {
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      out.text("schema", SCHEMA);
      out.text("machine", s.machine());
      out.text("job", s.job());
      out.whole("articles", s.articles().size());
      out.list("series", s.drift().series(), DriftJson::series);
      out.list(
          "hints",
          s.drift().hints(),
          (o, h) ->
              o.texts("series", h.series())
                  .text("cause", h.cause().key())
                  .text("sentence", h.sentence())
                  .text("action", h.action()));
      out.list(
          "repeatability",
          s.repeatability(),
          (o, r) ->
              o.text("series", r.series())
                  .text("unit", r.unit())
                  .number("sd", r.sd())
                  .number("low", r.low())
                  .number("high", r.high())
                  .whole("points", r.points())
                  .text("method", r.method()));
      falseAlarms(out, s.drift().family());
      out.texts("notes", DriftWords.notes(s));
      out.end();
    }
  }

  private static void falseAlarms(JsonOut out, FamilyControl f) throws IOException {
    out.begin("falseAlarms")
        .number("alpha", f.alpha())
        .whole("series", f.series())
        .whole("charts", f.charts())
        .whole("tests", f.tests())
        .number("perChart", f.perChart())
        .number("averageRunLength", f.averageRunLength())
        .number("averageRunLengthKnown", f.averageRunLengthKnown())
        .text("sentence", f.sentence())
        .end();
  }

  private static void series(JsonOut out, SeriesDrift d) throws IOException {
    out.text("name", d.name()).text("unit", d.series().unit());
    out.list(
        "points",
        d.series().points(),
        (o, p) ->
            o.text("at", time(p.at()))
                .text("article", p.article())
                .number("value", p.value())
                .number("standardError", p.standardError())
                .number("state", p.state())
                .number("trims", p.trims())
                .number("temperature", p.temperatureC())
                .number("minutesRunning", p.minutesRunning()));
    trend(out, d.trend());
    temperature(out, d.temperature());
    warmUp(out, d.warmUp());
    out.list(
        "changes",
        d.changes(),
        (o, c) ->
            o.text("at", time(c.at()))
                .number("size", c.size())
                .number("standardError", c.standardError())
                .text("event", c.event() == null ? null : c.event().what()));
    out.list(
        "signals",
        d.signals(),
        (o, g) ->
            o.text("at", time(g.at()))
                .text("chart", g.chart())
                .text("since", time(g.since()))
                .text("sentence", g.sentence()));
    forecast(out, d.forecast());
    limits(out, d.base(), d.limits());
  }

  static @Nullable String time(@Nullable Instant t) {
    return t == null ? null : t.toString();
  }

  private static void trend(JsonOut out, @Nullable TrendEffect t) throws IOException {
    if (t == null) {
      out.nothing("trend");
      return;
    }
    out.begin("trend")
        .number("perDay", t.perDay())
        .number("low", t.low())
        .number("high", t.high())
        .number("p", t.p())
        .number("pAdjusted", t.pAdjusted())
        .end();
  }

  private static void temperature(JsonOut out, @Nullable TemperatureEffect t) throws IOException {
    if (t == null) {
      out.nothing("temperature");
      return;
    }
    out.begin("temperature")
        .number("slope", t.slope())
        .number("standardError", t.standardError())
        .number("low", t.low())
        .number("high", t.high())
        .number("p", t.p())
        .number("pAdjusted", t.pAdjusted())
        .end();
  }

  private static void warmUp(JsonOut out, @Nullable WarmUp w) throws IOException {
    if (w == null) {
      out.nothing("warmUp");
      return;
    }
    out.begin("warmUp").number("amplitude", w.amplitude()).number("minutes", w.minutes());
    out.begin("standardErrors")
        .number("amplitude", w.amplitudeSe())
        .number("minutes", w.minutesSe())
        .end();
    out.number("p", w.p()).number("pAdjusted", w.pAdjusted()).end();
  }

  private static void forecast(JsonOut out, @Nullable Forecast f) throws IOException {
    if (f == null) {
      out.nothing("forecast");
      return;
    }
    out.begin("forecast")
        .number("limit", f.limit())
        .text("at", time(f.at()))
        .text("low", time(f.low()))
        .text("high", time(f.high()))
        .flag("beyond", f.beyond())
        .end();
  }

  private static void limits(JsonOut out, @Nullable BaseEstimate b, @Nullable ChartLimits l)
      throws IOException {
    if (b == null || l == null) {
      out.nothing("control");
      return;
    }
    out.begin("control")
        .whole("basePoints", b.count())
        .number("centre", b.centre())
        .number("processSd", b.processSd())
        .number("individuals", l.individuals())
        .number("ewma", l.ewma())
        .number("cusum", l.cusum())
        .number("averageRunLengthIndividuals", l.arlIndividuals())
        .number("averageRunLengthEwma", l.arlEwma())
        .number("averageRunLengthCusum", l.arlCusum())
        .end();
  }
}
