package org.padtrue.web.result;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.ClearanceResult;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.problem.Question;
import org.padtrue.report.words.LimitWords;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.RecordForm;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.ShownNumbers;

/** Makes the view of a result. */
final class ResultViews {
  private static final int MOST_WORST = 30;
  private static final int MOST_CLEARANCES = 30;
  private static final double WORTH_SAYING = 0.0005;

  private final FirstArticleResult r;
  private final PanelResult shown;

  /**
   * The views of a result.
   *
   * @param panel the panel that map and numbers show; the first where it is none of the result's
   */
  ResultViews(FirstArticleResult r, String panel) {
    this.r = r;
    shown =
        r.panels().stream()
            .filter(p -> p.panel().equals(panel))
            .findFirst()
            .orElse(r.panels().get(0));
  }

  static ResultView without(
      BenchArticle a, String jobName, List<String> problems, @Nullable Question asked) {
    return new ResultView(
        a.id(),
        a.about().name(),
        a.about().job(),
        jobName,
        problems,
        a.about().file(),
        asked == null ? "" : asked.key(),
        "",
        List.of(),
        List.of(),
        List.of(),
        "",
        List.of(),
        "",
        "",
        "",
        "",
        null,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        RecordForm.PLAIN,
        WhatIfView.NONE);
  }

  ResultView of(BenchArticle a, RecordForm form, WhatIfView what) {
    return new ResultView(
        a.id(),
        a.about().name(),
        a.about().job(),
        r.job().name(),
        List.of(),
        a.about().file(),
        "",
        ResultWords.headline(r),
        ResultWords.trims(r),
        ResultWords.also(r),
        ResultWords.cautions(r),
        ResultWords.signTrial(),
        figures(),
        capital(ResultWords.rounding(r)),
        r.acceptance().judged() == 0
            ? "Not judged: no part type of this job has lands or a tolerance."
            : ResultWords.risk(r),
        LimitWords.summary(r.job()),
        capital(ResultWords.measuring(r)) + ".",
        DeviationMap.of(r, shown.panel()),
        worst(),
        excluded(),
        clearances(),
        evidence(),
        tests(),
        r.notes().stream().map(ResultWords::page).map(PageWords::plain).toList(),
        form,
        what);
  }

  private List<ResultView.Figure> figures() {
    Prediction p = r.prediction();
    List<ResultView.Figure> f = new ArrayList<>();
    f.add(figure("as measured", p.seen(), "RMS of the placements used"));
    f.add(figure("next panel, nothing changed", p.nextUntrimmed(), "expected RMS"));
    f.add(figure("next panel, trims entered", p.nextTrimmed(), "expected RMS, after rounding"));
    f.add(figure("scatter alone", p.floor(), "no offset goes below this"));
    return f;
  }

  private static ResultView.Figure figure(String name, double mm, String note) {
    return new ResultView.Figure(name, ShownNumbers.number(mm * 1000, 1) + " \u00b5m", note);
  }

  private List<ResultView.PlaceLine> worst() {
    return r.placements().stream()
        .filter(p -> Double.isFinite(p.margin()) && Double.isFinite(p.deviation().x()))
        .filter(
            p ->
                p.margin() < 0
                    || p.marginAfterTrim() < 0
                    || p.probabilityOutside() > WORTH_SAYING
                    || p.probabilityOutsideAfterTrim() > WORTH_SAYING)
        .sorted(Comparator.comparingDouble(PlacementResult::marginAfterTrim))
        .limit(MOST_WORST)
        .map(this::line)
        .toList();
  }

  private ResultView.PlaceLine line(PlacementResult p) {
    return new ResultView.PlaceLine(
        p.panel() + "/" + p.id(),
        label(p.panel(), p.id()),
        p.part(),
        p.verdict().equals("outside") ? "\u2717 outside" : ResultWords.verdict(p.verdict()),
        ResultWords.length(p.margin()),
        ResultWords.length(p.marginAfterTrim()),
        percent(p.probabilityOutside()),
        percent(p.probabilityOutsideAfterTrim()));
  }

  private String label(String panel, String id) {
    boolean boards = r.job().array().boards().size() > 1;
    String own = boards ? id : id.substring(id.lastIndexOf('/') + 1);
    return r.panels().size() > 1 ? panel + " " + own : own;
  }

  private static String percent(double share) {
    if (!Double.isFinite(share)) {
      return ShownNumbers.UNKNOWN;
    }
    double v = 100 * share;
    return v > 0 && v < 0.01
        ? "<0.01 %"
        : ShownNumbers.number(v, v < 1 ? 2 : v < 10 ? 1 : 0) + " %";
  }

  private List<ResultView.ExcludedLine> excluded() {
    List<ResultView.ExcludedLine> list = new ArrayList<>();
    for (Excluded e : Excluded.shown(r.excluded())) {
      String id = e.board() + "/" + e.ref();
      list.add(
          new ResultView.ExcludedLine(
              e.panel() + "/" + id,
              label(e.panel(), id),
              ResultWords.kind(e.kind()),
              ResultWords.page(e.sentence())));
    }
    return list;
  }

  private List<ResultView.ClearanceLine> clearances() {
    List<ResultView.ClearanceLine> list = new ArrayList<>();
    for (ClearanceResult c :
        r.clearances().subList(0, Math.min(MOST_CLEARANCES, r.clearances().size()))) {
      list.add(
          new ResultView.ClearanceLine(
              c.panel() + "/" + c.a(),
              c.panel() + "/" + c.b(),
              label(c.panel(), c.a()) + " and " + label(c.panel(), c.b()),
              ResultWords.length(c.gap()),
              ResultWords.length(c.gapAfterTrim()),
              percent(c.probabilityTouching()),
              ResultWords.page(c.sentence())));
    }
    return list;
  }

  private List<ResultView.Evidence> evidence() {
    List<ResultView.Evidence> list = new ArrayList<>();
    BatchTrim b = r.batchTrim();
    PanelResult p = shown;
    list.add(
        evidence(
            "panel offset"
                + (r.panels().size() > 1 ? " of " + p.panel() : "")
                + ", at the centre of what was measured",
            b.shift().decision(),
            pair(p.shiftAtCentroid().x(), p.shiftAtCentroidSe().x(), "x")
                + ", "
                + pair(p.shiftAtCentroid().y(), p.shiftAtCentroidSe().y(), "y"),
            b.shift().reason()));
    list.add(
        evidence(
            "panel rotation",
            b.rotation().decision(),
            known(p.transform().rotation(), p.standardErrors().rotation(), 4, "\u00b0"),
            b.rotation().reason()));
    list.add(
        evidence(
            "axis scale",
            b.scale().decision(),
            ppm("x", p.transform().scaleXPpm(), p.standardErrors().scaleXPpm())
                + ", "
                + ppm("y", p.transform().scaleYPpm(), p.standardErrors().scaleYPpm()),
            b.scale().reason()));
    list.add(
        evidence(
            "squareness",
            b.scale().decision(),
            known(p.transform().squarenessMrad(), p.standardErrors().squarenessMrad(), 3, " mrad"),
            b.scale().reason()));
    list.add(evidence("board array", b.array().decision(), "", b.array().reason()));
    list.add(
        evidence("offset common to all parts", b.common().decision(), "", b.common().reason()));
    list.add(
        evidence(
            "rotation zero of all parts",
            b.rotationZero().decision(),
            "",
            b.rotationZero().reason()));
    for (GroupResult g : r.groups()) {
      list.add(
          evidence(
              g.named().words()
                  + " ("
                  + ShownNumbers.count(g.count(), "placement")
                  + ", "
                  + ResultWords.frame(g.frame())
                  + ")",
              g.trim().decision(),
              pair(g.combined().x(), g.combinedStandardErrors().x(), "x")
                  + ", "
                  + pair(g.combined().y(), g.combinedStandardErrors().y(), "y")
                  + (Double.isNaN(g.combined().rotation())
                      ? ""
                      : ", rotation "
                          + known(
                              g.combined().rotation(),
                              g.combinedStandardErrors().rotation(),
                              3,
                              "\u00b0")),
              g.trim().reason()));
    }
    return list;
  }

  private static ResultView.Evidence evidence(
      String name, Decision d, String estimate, String reason) {
    return new ResultView.Evidence(
        name, ResultWords.decision(d), estimate, ResultWords.page(reason));
  }

  private static String capital(String s) {
    return s.isEmpty() ? s : Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }

  private static String pair(double mm, double se, String axis) {
    return axis + " " + known(1000 * mm, 1000 * se, 1, " \u00b5m");
  }

  private static String ppm(String axis, double v, double se) {
    return axis + " " + known(v, se, 0, " ppm");
  }

  /** Estimate and one standard error; what is not known or not in the model is said so. */
  private static String known(double v, double se, int decimals, String unit) {
    if (!Double.isFinite(v)) {
      return "not known";
    }
    if (v == 0 && se == 0) {
      return "not in the model";
    }
    return ShownNumbers.signed(v, decimals)
        + (Double.isFinite(se) ? " \u00b1 " + ShownNumbers.number(se, decimals) : "")
        + unit;
  }

  private List<ResultView.TestLine> tests() {
    List<ResultView.TestLine> list = new ArrayList<>();
    for (FamilyTest t : r.tests()) {
      list.add(
          new ResultView.TestLine(
              ResultWords.family(t.family()),
              ShownNumbers.number(t.statistic(), 2)
                  + (t.kind().isEmpty() ? "" : " (" + t.kind() + ")"),
              t.p() < 1e-4 ? "<0.0001" : String.format(Locale.ROOT, "%.4f", t.p()),
              t.passes() ? "\u2713 there" : "\u00d7 not shown"));
    }
    return list;
  }
}
