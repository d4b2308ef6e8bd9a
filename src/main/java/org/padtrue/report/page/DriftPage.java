package org.padtrue.report.page;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.log.DriftStudy;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.words.DriftWords;
import org.padtrue.report.words.Show;

/**
 * The page about drift: one file, pictures inside, no script, nothing from elsewhere. First what
 * drifts and what to do, then how sure it is, then the evidence.
 */
public final class DriftPage {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  private DriftPage() {}

  public static String of(DriftStudy s, List<DrawnChart> pictures) {
    Html h = new Html();
    h.raw("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    h.raw("<meta charset=\"utf-8\"/>\n");
    h.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    h.raw("<meta name=\"color-scheme\" content=\"light dark\"/>\n");
    h.element("title", "Drift of machine " + s.machine());
    h.raw("<style>\n").raw(HtmlReport.style()).raw("</style>\n");
    h.close("head").open("body").open("main");
    answer(h, s);
    sure(h, s);
    evidence(h, s, pictures);
    h.close("main").close("body").close("html");
    return h.toString();
  }

  private static void answer(Html h, DriftStudy s) {
    h.open("header");
    h.element("p", "Drift", "class", "kicker");
    h.element("h1", "Machine " + s.machine());
    int n = s.articles().size();
    h.element(
        "p",
        (n == 1 ? "1 article" : n + " articles")
            + (s.job() == null ? "" : " of job " + s.job())
            + ", "
            + TIME.format(s.from())
            + " to "
            + TIME.format(s.to())
            + " UTC, "
            + s.drift().series().size()
            + " series.");
    h.close("header");
    h.open("section", "class", "answer");
    h.element("h2", "What drifts, and what to do");
    h.element("p", DriftWords.headline(s), "class", "lead");
    HtmlTable t = new HtmlTable("").text("Likely cause", "What is seen", "What to do");
    for (Hint hint : s.drift().hints()) {
      t.row(DriftWords.cause(hint.cause()), Show.words(hint.sentence()), Show.words(hint.action()));
    }
    t.into(h);
    h.element("p", DriftWords.SIGNS, "class", "quiet");
    cautions(h);
    h.close("section");
  }

  private static void cautions(Html h) {
    h.open("div", "class", "cautions").element("h3", "Before you change anything").open("ul");
    DriftWords.CAUTIONS.forEach(c -> h.element("li", c));
    h.close("ul").close("div");
  }

  private static void sure(Html h, DriftStudy s) {
    h.open("section");
    h.element("h2", "How sure");
    h.element("p", s.drift().family().sentence());
    String r = DriftWords.repeatability(s);
    if (!r.isEmpty()) {
      h.element("p", Show.words(r) + " 'analyse --history' uses it where the job gives none.");
    }
    for (String note : DriftWords.notes(s)) {
      h.element("p", Show.words(note), "class", "quiet");
    }
    h.close("section");
  }

  private static void evidence(Html h, DriftStudy s, List<DrawnChart> pictures) {
    h.open("section", "class", "page");
    h.element("h2", "Evidence");
    for (String group : List.of("series", "spread", "map")) {
      EvidenceSection.charts(h, group, pictures);
    }
    table(h, s);
    h.close("section");
  }

  private static void table(Html h, DriftStudy s) {
    Set<String> named = DriftWords.named(s);
    HtmlTable t =
        new HtmlTable(
                "Every series, in the unit of its row. State is the machine's own, trims entered"
                    + " taken off; after \u00b1 stands one standard error; p values are adjusted"
                    + " over all series (Holm). The limit is the no-adjustment limit of the last"
                    + " article's job, or the one given.")
            .text("Series", "Unit")
            .numbers(
                "Articles",
                "Observed last",
                "State last",
                "Trend, per day",
                "p",
                "With temperature, per K")
            .text("First signal", "Reaches its limit, UTC");
    for (SeriesDrift d : s.drift().series()) {
      t.styled(named.contains(d.name()) ? "trim" : "", row(d));
    }
    t.into(h);
  }

  private static String[] row(SeriesDrift d) {
    List<SeriesPoint> p = d.series().points();
    double f = d.series().unit().equals("mm") ? 1000 : 1;
    TrendEffect trend = d.trend();
    var t = d.temperature();
    return new String[] {
      SeriesWords.framed(d.name()),
      d.series().unit().equals("mm")
          ? "\u00b5m"
          : d.series().unit().equals("deg") ? "degrees" : d.series().unit(),
      Integer.toString(p.size()),
      p.isEmpty() ? Show.UNKNOWN : last(f, p.get(p.size() - 1).value(), p),
      p.isEmpty() ? Show.UNKNOWN : last(f, p.get(p.size() - 1).state(), p),
      trend == null
          ? Show.UNKNOWN
          : signed(f * trend.perDay(), f * 0.25 * (trend.high() - trend.low())),
      trend == null ? Show.UNKNOWN : Show.p(trend.pAdjusted()),
      t == null ? Show.UNKNOWN : signed(f * t.slope(), f * t.standardError()),
      d.signals().isEmpty() ? "" : DriftWords.day(d.signals().get(0).since()),
      DriftWords.forecast(d.forecast())
    };
  }

  private static String last(double f, double v, List<SeriesPoint> points) {
    double se = points.get(points.size() - 1).standardError();
    return Double.isFinite(se) && se > 0 ? signed(f * v, f * se) : Show.three(f * v);
  }

  private static String signed(double v, double se) {
    return (v > 0 ? "+" : "") + Show.plusMinus(v, se);
  }
}
