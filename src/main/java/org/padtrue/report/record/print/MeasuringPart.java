package org.padtrue.report.record.print;

import java.util.List;
import org.padtrue.report.record.Figures;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.Measuring;
import org.padtrue.report.record.MeasuringTool;
import org.padtrue.report.words.LimitWords;

/** What it was measured with, how well, and how that is decided. */
final class MeasuringPart {
  private MeasuringPart() {}

  static void write(Markup m, FirstArticleRecord r) {
    m.open("div", "class", "block");
    m.element("h2", "Measuring and decision rule", "id", "measuring");
    tools(m, r.identification().tools());
    m.element("p", uncertainty(r.measuring()));
    m.element("p", "Decision rule: " + r.measuring().rule().sentence());
    m.element("p", r.limitSummary());
    m.close("div");
  }

  /** Each limit, and what it rests on. */
  static void limits(Markup m, FirstArticleRecord r) {
    if (r.limits().isEmpty()) {
      return;
    }
    m.open("div", "class", "block");
    m.element("h2", "Acceptance limits, class " + r.acceptanceClass() + " (IPC-A-610)");
    m.open("table", "class", "rows").open("thead").open("tr");
    m.element("th", "Joint", "style", "width: 14%");
    m.element("th", "Side overhang allowed", "style", "width: 21%");
    m.element("th", "End overhang", "style", "width: 12%");
    m.element("th", "Rests on", "style", "width: 13%");
    m.element("th", "Source");
    m.close("tr").close("thead").open("tbody");
    for (LimitWords.Line l : r.limits()) {
      m.open("tr").element("td", l.kind()).element("td", l.side()).element("td", l.end());
      m.element("td", l.standing()).element("td", l.source()).close("tr");
    }
    m.close("tbody").close("table").close("div");
  }

  private static void tools(Markup m, List<MeasuringTool> tools) {
    m.open("table").open("thead").open("tr");
    m.element("th", "10 Tool", "style", "width: 9%");
    m.element("th", "What", "style", "width: 41%");
    m.element("th", "Identification", "style", "width: 25%");
    m.element("th", "Calibrated until");
    m.close("tr").close("thead").open("tbody");
    for (int i = 0; i < tools.size(); i++) {
      MeasuringTool t = tools.get(i);
      m.open("tr").element("td", Integer.toString(i + 1)).element("td", t.name());
      m.element("td", t.id() == null ? "" : t.id());
      m.element("td", t.calibratedUntil() == null ? "" : t.calibratedUntil());
      m.close("tr");
    }
    if (tools.isEmpty()) {
      m.open("tr").element("td", "1").element("td", "").element("td", "").element("td", "");
      m.close("tr");
    }
    m.close("tbody").close("table");
  }

  private static String uncertainty(Measuring u) {
    String k = Figures.plain(u.coverageFactor());
    if (Double.isNaN(u.uncertaintyMm())) {
      return "The uncertainty of measuring is not stated in the job; a gauge study gives it."
          + " Coverage factor k = "
          + k
          + " where one is stated.";
    }
    String rotation =
        Double.isNaN(u.rotationUncertaintyDeg())
            ? "that of a rotation is not stated"
            : Figures.plain(u.expandedDeg()) + "\u00b0 for a rotation";
    String bias =
        u.biasMm() == 0
            ? ""
            : " plus the bias of " + Figures.plain(u.biasMm()) + " mm, which is not corrected";
    return "Expanded uncertainty U: "
        + Figures.plain(u.expandedMm())
        + " mm for a coordinate, "
        + rotation
        + "; standard uncertainty as the job states it times the coverage factor k = "
        + k
        + bias
        + " (JCGM 100:2008"
        + (u.coverageFactor() == 2 ? "; k = 2 covers about 95 % of a normal distribution" : "")
        + "). For the land fit U counts a coordinate and the rotation at the farthest edge.";
  }
}
