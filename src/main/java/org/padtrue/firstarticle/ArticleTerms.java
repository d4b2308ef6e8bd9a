package org.padtrue.firstarticle;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.AnalysisOptions.Transform;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.Limits;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.fit.Finding;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.TypeScatter;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.trim.DeadBand;

/**
 * An article screened and ready for plain fits: what a log keeps of it. The mixed fit behind it
 * gives the scatter; judging and deciding are left out.
 *
 * @param all every measured placement
 * @param used those that take part in fits
 * @param excludedAs for each row of {@code all} what it looked like when it does not, else empty
 * @param turnDeg for each row of {@code used} its rotation deviation from its type's own zero,
 *     degrees, modulo symmetry; NaN not measured
 * @param scatter what no offset removes
 * @param expected for each row of {@code used} the variance of its position per axis, scatter of
 *     its type and its own measuring uncertainty together, mm^2
 * @param expectedTurn the same of its rotation, degrees squared; NaN where none was measured
 * @param scaleVisible false when the reference hides scale and squareness
 * @param partsRegistered true when shift and rotation of the panel cannot be known
 * @param relativeTypes part types whose offsets cannot be known: measured against a sample
 * @param bands how far a term may be off before a trim is worth entering
 */
public record ArticleTerms(
    DeviationTable all,
    DeviationTable used,
    List<String> excludedAs,
    List<Double> turnDeg,
    Scatter scatter,
    List<Double> expected,
    List<Double> expectedTurn,
    boolean scaleVisible,
    boolean partsRegistered,
    Set<String> relativeTypes,
    Bands bands) {

  public ArticleTerms {
    relativeTypes = Set.copyOf(relativeTypes);
  }

  /**
   * Dead bands: how far a term may be off before a trim is worth entering.
   *
   * @param mm for offsets, the tightest of all part types measured
   * @param deg for rotations of parts
   * @param reachMm distance of the farthest part from the middle: a turn or stretch that moves it
   *     by {@code mm} is at its band
   */
  public record Bands(double mm, double deg, double reachMm) {}

  /**
   * Screens and fits.
   *
   * @throws InputException when nothing was measured or the placements determine nothing
   */
  public static ArticleTerms of(Job job, Article article) {
    ArticleSet set = ArticleSet.of(job, List.of(article));
    if (set.table().size() == 0) {
      throw new InputException(
          Problem.of(
              article.file(),
              "no placement was measured, so there is nothing to record",
              "measure some placements and give their rows"));
    }
    Fits fits;
    try {
      fits = fits(job, set);
    } catch (UndeterminedException e) {
      throw new InputException(
          Problem.of(
              article.file(),
              String.valueOf(e.getMessage()),
              "measure more placements, spread over the panel"));
    }
    boolean[] used = new boolean[set.table().size()];
    for (int i : fits.usedRow()) {
      used[i] = true;
    }
    List<String> excluded = new ArrayList<>();
    for (int i = 0; i < used.length; i++) {
      Finding f = fits.finding(i);
      excluded.add(used[i] || f == null ? "" : f.kind().key());
    }
    List<Double> turn = new ArrayList<>();
    double[] response = fits.turnFromZero(set);
    for (double d : response) {
      turn.add(d);
    }
    RotationFit rotation = fits.rotation();
    return new ArticleTerms(
        set.table(),
        fits.used(),
        List.copyOf(excluded),
        List.copyOf(turn),
        FirstArticleAnalysis.scatter(fits),
        expected(fits, fits.position().scatter(), fits.used().u()),
        expected(fits, rotation == null ? null : rotation.scatter(), fits.used().ur()),
        fits.scaleVisible(),
        set.partsRegistered(),
        set.relativeTypes(),
        bands(job, fits));
  }

  private static List<Double> expected(Fits fits, @Nullable TypeScatter scatter, double[] u) {
    List<Double> v = new ArrayList<>();
    for (int i = 0; i < u.length; i++) {
      String part = fits.used().rows().get(i).placement().part();
      v.add(
          scatter == null
              ? Double.NaN
              : Double.isNaN(u[i]) ? scatter.variance(part) : scatter.placing(part) + u[i] * u[i]);
    }
    return List.copyOf(v);
  }

  // The whole affine family for every article alike: a series of scatter must not change its model
  // from one article to the next. Where an article cannot carry it, the free choice.
  private static Fits fits(Job job, ArticleSet set) {
    try {
      return Fits.of(job, set, AnalysisOptions.withDefaults().with(Transform.AFFINE));
    } catch (UndeterminedException tooFew) {
      return Fits.of(job, set, AnalysisOptions.withDefaults());
    }
  }

  private static Bands bands(Job job, Fits fits) {
    Set<String> parts = new TreeSet<>();
    fits.used().rows().forEach(m -> parts.add(m.placement().part()));
    Limits limits = new Limits(job);
    return new Bands(
        DeadBand.noAdjustment(
                job.machine().resolutionMm(), limits.tightestMm(parts), job.measurement().biasMm())
            .halfWidth(),
        DeadBand.noAdjustment(job.machine().rotationResolutionDeg(), limits.tightestDeg(parts), 0)
            .halfWidth(),
        Decisions.halfDiagonal(fits));
  }
}
