package org.padtrue.firstarticle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.decide.Budget;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.firstarticle.decide.Groups;
import org.padtrue.firstarticle.decide.SheetGuard;
import org.padtrue.firstarticle.decide.TrimEffects;
import org.padtrue.firstarticle.decide.TrimSheet;
import org.padtrue.firstarticle.fitted.Aliases;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.FiducialCheck;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.FrameWords;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.fitted.ScatterByType;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.next.Acceptances;
import org.padtrue.firstarticle.next.Clearances;
import org.padtrue.firstarticle.next.NextPanel;
import org.padtrue.firstarticle.next.PlacementTable;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.FamilyLine;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.Quadrant;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.FamilyCandidate;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.PanelEstimate;
import org.padtrue.mixed.RotationFit;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Job;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;

/** The main job: from a job and its articles to what to change. */
public final class FirstArticleAnalysis {
  private FirstArticleAnalysis() {}

  /** Told what is being done, for the console. */
  @FunctionalInterface
  public interface Listener {
    /** A step has begun. */
    void step(String what);
  }

  /** Analyses quietly. */
  public static FirstArticleResult run(Job job, List<Article> articles, AnalysisOptions options) {
    return run(job, articles, options, what -> {});
  }

  /**
   * Analyses.
   *
   * @param given the job; of an article that was registered on lands, whatever its reference
   * @param articles one article or several of the same batch
   * @param options what is asked
   * @param listener told each step
   * @throws InputException when there is nothing to do or the placements do not determine the
   *     family
   */
  public static FirstArticleResult run(
      Job given, List<Article> articles, AnalysisOptions options, Listener listener) {
    boolean onLands = articles.stream().anyMatch(Article::landsRegistered);
    Job job = onLands ? given.against(Reference.LANDS) : given;
    String file = articles.stream().map(Article::file).findFirst().orElse("");
    if (job.placements().isEmpty()) {
      throw new InputException(
          Problem.of(
              job.name(),
              "the placement list is empty, so there is nothing to do",
              "give a placement file with rows of the side that is placed"));
    }
    ArticleSet set = ArticleSet.of(job, articles);
    if (set.table().size() == 0) {
      throw new InputException(
          Problem.of(
              file,
              "no placement was measured, so there is nothing to do",
              "measure some placements and give their rows"));
    }
    listener.step("screening and fitting " + set.table().size() + " placements");
    Fits fits;
    try {
      fits = Fits.of(job, set, options);
    } catch (UndeterminedException e) {
      throw new InputException(
          Problem.of(
              file,
              String.valueOf(e.getMessage()),
              "measure more placements, spread over the panel, or take a simpler --transform"));
    }
    TestList tests = TestList.of(fits, !set.partsRegistered());
    if (fits.position().terms().common() && !options.common() && !tests.passes(TermFamily.COMMON)) {
      // Not sure enough to act on: the part types' own offsets carry it instead.
      fits = Fits.of(job, set, options, false);
      tests = TestList.of(fits, !set.partsRegistered());
    }
    Decisions decisions = new Decisions(job, set, fits, tests, options);
    NextPanel next = new NextPanel(fits, tests);
    listener.step("judging every placement");
    PlacementTable table = new PlacementTable(job, set, fits, decisions.field(), next, options);
    String worse =
        options.turnedOff().isEmpty()
            ? SheetGuard.reason(
                Budget.prediction(job, fits, decisions, next),
                table.expectedOutside(false),
                table.expectedOutside(true))
            : null;
    if (worse != null) {
      decisions.leave(worse);
      table = new PlacementTable(job, set, fits, decisions.field(), next, options);
    }
    List<GroupResult> groups = Groups.of(fits, decisions, set);
    int measured = set.table().size() + set.faults().size();
    int nominal =
        job.placements().size() * job.array().boards().size() * set.table().panels().size();
    RotationFit r = fits.rotation();
    double[] common = fits.position().common();
    double[] commonSe = fits.position().commonSe();
    return new FirstArticleResult(
        job,
        articles.stream().map(Article::file).toList(),
        options,
        new FirstArticleResult.Counts(
            nominal,
            measured,
            fits.used().size(),
            measured - fits.used().size(),
            nominal - measured),
        panels(job, set, fits),
        Double.isNaN(common[0])
            ? null
            : new FirstArticleResult.Common(
                new Xy(common[0], common[1]), new Xy(commonSe[0], commonSe[1])),
        r == null
            ? null
            : new FirstArticleResult.RotationZero(
                r.zero(), Math.sqrt(TestList.rotationZeroVariance(fits, r))),
        groups,
        decisions.batch(),
        TrimSheet.lines(
            job, decisions.batch(), groups, new TrimEffects(job, fits, decisions, next, table)),
        tests.lines(),
        variances(fits),
        Budget.lines(fits, decisions),
        scatter(fits),
        Budget.prediction(job, fits, decisions, next),
        quadrants(fits),
        Aliases.of(job, fits, set.partsRegistered()),
        table.excluded(),
        table.results(),
        table.missing(),
        Acceptances.of(job, table),
        Clearances.of(job, table, fits, next, decisions.field()),
        table.next(),
        notes(job, set, fits, decisions, worse));
  }

  private static List<PanelResult> panels(Job job, ArticleSet set, Fits fits) {
    List<PanelResult> out = new ArrayList<>();
    OffsetFit f = fits.position();
    List<FamilyLine> families = new ArrayList<>();
    for (FamilyCandidate c : f.candidates()) {
      families.add(
          new FamilyLine(
              c.family().key(),
              c.array(),
              c.parameters(),
              c.rss(),
              c.aicc(),
              c.f(),
              c.p(),
              c.family() == f.terms().family() && c.array() == f.terms().array()));
    }
    double hidden = fits.scaleVisible() ? 0 : Double.NaN;
    double gone = set.partsRegistered() ? Double.NaN : 0;
    for (int p = 0; p < fits.panels().size(); p++) {
      PanelEstimate e = fits.panels().get(p);
      String name = fits.used().panels().get(p);
      double[] se = e.se();
      out.add(
          new PanelResult(
              name,
              set.articleOf().getOrDefault(name, ""),
              f.terms().family().key(),
              new TransformValues(
                  e.shiftXMm() + gone,
                  e.shiftYMm() + gone,
                  e.rotationDeg() + gone,
                  e.scaleXPpm() + hidden,
                  e.scaleYPpm() + hidden,
                  e.squarenessMrad() + hidden),
              new TransformValues(
                  se[0] + gone,
                  se[1] + gone,
                  se[2] + gone,
                  se[3] + hidden,
                  se[4] + hidden,
                  se[5] + hidden),
              array(f),
              families,
              new Xy(f.centroid()[0], f.centroid()[1]),
              new Xy(e.centroidShiftMm()[0] + gone, e.centroidShiftMm()[1] + gone),
              new Xy(Math.sqrt(e.centroidCov()[0]) + gone, Math.sqrt(e.centroidCov()[2]) + gone),
              FiducialCheck.of(job, name, set.fiducials(), e)));
    }
    return out;
  }

  private static @Nullable ArrayError array(OffsetFit f) {
    if (!f.terms().array()) {
      return null;
    }
    double[] a = f.array();
    double[] s = f.arraySe();
    return new ArrayError(
        new Xy(a[0], a[1]), new Xy(a[2], a[3]), new Xy(s[0], s[1]), new Xy(s[2], s[3]));
  }

  private static List<VarianceLine> variances(Fits fits) {
    List<VarianceLine> out = new ArrayList<>();
    RotationFit r = fits.rotation();
    for (FactorEffect e : fits.position().effects()) {
      out.add(new VarianceLine(e.source(), "x", e.sdX(), true));
      out.add(new VarianceLine(e.source(), "y", e.sdY(), true));
    }
    for (int k = 0; r != null && k < r.factors().size(); k++) {
      out.add(new VarianceLine(r.factors().get(k).key(), "rotation", r.sd(k), true));
    }
    registration(out, "x", fits.shiftX().between());
    registration(out, "y", fits.shiftY().between());
    registration(out, "rotation", fits.turn().between());
    Scatter s = scatter(fits);
    out.add(
        new VarianceLine(
            TermFamily.SCATTER.key(),
            "xy",
            Math.sqrt(NextPanel.mean(fits, fits.position().scatter())),
            false));
    out.add(new VarianceLine(TermFamily.SCATTER.key(), "rotation", s.sdRotation(), false));
    if (!Double.isNaN(s.measuringSd())) {
      out.add(new VarianceLine("measuring", "xy", s.measuringSd(), false));
    }
    return out;
  }

  private static void registration(List<VarianceLine> out, String axis, double variance) {
    if (!Double.isNaN(variance)) {
      out.add(new VarianceLine(TrimKind.REGISTRATION.key(), axis, Math.sqrt(variance), false));
    }
  }

  static Scatter scatter(Fits fits) {
    DeviationTable t = fits.used();
    OffsetFit f = fits.position();
    double sx = 0;
    double sy = 0;
    for (int i = 0; i < t.size(); i++) {
      double rx = t.dx()[i];
      double ry = t.dy()[i];
      for (double[] c : f.contributions(i)) {
        rx -= c[0];
        ry -= c[1];
      }
      sx += rx * rx;
      sy += ry * ry;
    }
    // The pooled REML variance of placing, split between the axes as their residuals are.
    double v = NextPanel.mean(fits, f.scatter());
    double vx = sx + sy > 0 ? 2 * v * sx / (sx + sy) : v;
    double vy = sx + sy > 0 ? 2 * v * sy / (sx + sy) : v;
    RotationFit r = fits.rotation();
    double rv = r == null ? Double.NaN : Math.sqrt(NextPanel.mean(fits, r.scatter()));
    return new Scatter(
        Math.sqrt(vx),
        Math.sqrt(vy),
        rv,
        f.residualSd(),
        r == null ? Double.NaN : r.residualSd(),
        f.measuringSd(),
        f.degreesOfFreedom(),
        ScatterByType.of(fits));
  }

  private static List<Quadrant> quadrants(Fits fits) {
    DeviationTable t = fits.used();
    double[][] s = new double[4][4];
    int[] n = new int[4];
    for (int i = 0; i < t.size(); i++) {
      int q = Angles.quadrant(t.theta()[i]) / 90;
      double rx = t.dx()[i];
      double ry = t.dy()[i];
      for (double[] c : fits.position().contributions(i)) {
        rx -= c[0];
        ry -= c[1];
      }
      n[q]++;
      s[q][0] += rx;
      s[q][1] += ry;
    }
    List<Quadrant> out = new ArrayList<>();
    double[] sum = new double[4];
    for (int i = 0; i < t.size(); i++) {
      sum[Angles.quadrant(t.theta()[i]) / 90] +=
          fits.position().scatter().variance(t.rows().get(i).placement().part());
    }
    for (int q = 0; q < 4; q++) {
      if (n[q] > 0) {
        double se = Math.sqrt(sum[q]) / n[q];
        out.add(new Quadrant(90 * q, n[q], new Xy(s[q][0] / n[q], s[q][1] / n[q]), new Xy(se, se)));
      }
    }
    return out;
  }

  private static List<String> notes(
      Job job, ArticleSet set, Fits fits, Decisions decisions, @Nullable String worse) {
    List<String> notes = new ArrayList<>(job.notes());
    if (worse != null) {
      notes.add(worse);
    }
    String folded = decisions.folded();
    if (folded != null) {
      notes.add(folded);
    }
    notes.addAll(set.notes());
    notes.addAll(fits.screening().notes());
    notes.addAll(FrameWords.notes(fits));
    if (job.stage() == Stage.TAPE) {
      notes.add(
          "measured on tape: tape hides the lands and drags parts otherwise than paste, so confirm"
              + " the trims on the first panel with paste");
    }
    if (job.stage() != Stage.REFLOWED) {
      notes.add(
          "the acceptance limits are written for soldered joints; before reflow they are a guide");
    }
    if (!job.unplaced().isEmpty()) {
      Map<String, Long> by =
          job.unplaced().stream()
              .collect(
                  java.util.stream.Collectors.groupingBy(
                      u -> u.reason().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '),
                      java.util.TreeMap::new,
                      java.util.stream.Collectors.counting()));
      notes.add("rows of the placement file that take no part: " + by);
    }
    if (!fits.scaleVisible()) {
      notes.add(
          "measured with the machine's own camera and axes: scale, squareness and array error"
              + " cannot be seen");
    }
    double[] settling = fits.position().settling();
    if (!Double.isNaN(settling[0])) {
      notes.add(
          String.format(
              java.util.Locale.ROOT,
              "deviations settle with the placing order by (%.2f, %.2f) um per placement; reported,"
                  + " not trimmed",
              settling[0] * 1e3,
              settling[1] * 1e3));
    }
    return notes;
  }
}
