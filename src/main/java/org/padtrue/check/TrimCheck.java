package org.padtrue.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.NumberWords;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Did the trims do what they promised? A second article of the batch, placed with the trims in
 * force, is held against the prediction of the first: estimate plus trim, term by term.
 *
 * <p>Model: second article = promise + X u + registration + scatter, u the error of the first
 * article's estimates with its full covariance, registration the panel's own shift and turn. For
 * each trimmed term the second article's own estimate is the generalised least-squares one with
 * that term free and the others as far off as they may be, so it is not shrunk: a trim that was not
 * entered shows its full size. Which usual mistake explains it best is settled for all terms
 * together ({@link TrimCheckSearch}).
 */
public final class TrimCheck {
  private static final double CRY_WOLF = 0.001;

  private final ArticleSet set;
  private final TrimCheckRows rows;
  private final List<String> notes = new ArrayList<>();

  private TrimCheck(ArticleSet set, TrimCheckRows rows) {
    this.set = set;
    this.rows = rows;
  }

  /**
   * Checks.
   *
   * @param job the job, with the placements that were analysed
   * @param before the analysis whose trims are in force
   * @param second one article or several, placed with the trims
   * @throws InputException when the second article shows nothing that the analysis knows
   */
  public static TrimCheckResult run(Job job, TrimCheckBefore before, List<Article> second) {
    ArticleSet set = ArticleSet.of(job, second);
    TrimCheckRows rows = new TrimCheckRows(job, before, set);
    if (rows.size() == 0) {
      throw new InputException(
          Problem.of(
              second.stream().map(Article::file).findFirst().orElse(""),
              "no placement was measured whose part type the analysis knows",
              "measure placements of the types that were trimmed"));
    }
    return new TrimCheck(set, rows).result(job, before);
  }

  private TrimCheckResult result(Job job, TrimCheckBefore before) {
    List<String> excluded = TrimCheckScreen.screen(rows, set);
    double[][] covariance = rows.prior().covariance(rows.panels(), !set.partsRegistered());
    TrimCheckScatter scatter =
        new TrimCheckScatter(
            rows,
            search(gaussian(covariance)).total(),
            covariance,
            before.scatter().degreesOfFreedom());
    rows.rescale(scatter.positions(), scatter.rotations());
    TrimCheckGaussian gaussian = gaussian(covariance);
    TrimCheckSearch search = search(gaussian);
    List<TrimCheckTerm> terms = terms(new TrimCheckJudge(job, rows, search, set.partsRegistered()));
    TrimCheckGaussian.Joint joint = gaussian.joint(trimmedColumns(gaussian), search.trimmedOnly());
    double p =
        joint.degreesOfFreedom() == 0
            ? Double.NaN
            : Tails.chiSquare(joint.statistic(), joint.degreesOfFreedom());
    TrimCheckVerdict verdict = verdict(terms, p);
    note(terms, scatter);
    return new TrimCheckResult(
        verdict,
        joint.statistic(),
        joint.degreesOfFreedom(),
        p,
        terms,
        rows.used(),
        scatter.ratio(),
        excluded,
        notes);
  }

  private TrimCheckGaussian gaussian(double[][] covariance) {
    return new TrimCheckGaussian(rows.gather(), covariance);
  }

  private TrimCheckSearch search(TrimCheckGaussian gaussian) {
    return new TrimCheckSearch(gaussian, rows.items(), rows.frames(), rows.columns());
  }

  private List<TrimCheckTerm> terms(TrimCheckJudge judge) {
    List<TrimCheckTerm> terms = new ArrayList<>();
    for (int i = 0; i < rows.items().size(); i++) {
      if (rows.items().get(i).trimmed() || rows.items().get(i).turn() != 0) {
        terms.add(judge.term(i));
      } else if (!judge.untrimmed(i).isEmpty()) {
        notes.add(judge.untrimmed(i));
      }
    }
    for (String part : rows.turns().parts()) {
      if (!rows.turns().untrimmed(part).isEmpty()) {
        notes.add(rows.turns().untrimmed(part));
      }
    }
    return terms;
  }

  private int[] trimmedColumns(TrimCheckGaussian gaussian) {
    return rows.items().stream()
        .filter(TrimCheckItem::trimmed)
        .flatMapToInt(t -> Arrays.stream(t.columns()))
        .filter(c -> c >= 0 && gaussian.k(c, c) > 1e-12)
        .toArray();
  }

  /** A term of check.json in words. */
  public static String words(String term) {
    return TrimCheckSentence.term(term);
  }

  private TrimCheckVerdict verdict(List<TrimCheckTerm> terms, double p) {
    boolean failed = terms.stream().anyMatch(t -> !t.kept());
    boolean held = terms.stream().anyMatch(t -> t.finding() == TrimCheckFinding.HELD);
    if (failed) {
      return held ? TrimCheckVerdict.PARTLY : TrimCheckVerdict.NOT_HELD;
    }
    if (p < CRY_WOLF) {
      notes.add("no single term stands out, but all together are farther off than chance explains");
      return TrimCheckVerdict.PARTLY;
    }
    if (!held && !terms.isEmpty()) {
      notes.add(
          "nothing contradicts the prediction, but no single trim is large enough to show; measure"
              + " more placements");
    }
    return TrimCheckVerdict.HELD;
  }

  private void note(List<TrimCheckTerm> terms, TrimCheckScatter scatter) {
    if (!rows.strangers().isEmpty()) {
      notes.add(rows.strangers());
    }
    if (scatter.grown()) {
      notes.add(
          String.format(
              Locale.ROOT,
              "the second article scatters %.1f times as much as the first",
              scatter.ratio()));
    }
    notes.addAll(set.notes());
    if (terms.isEmpty()) {
      notes.add("the analysis trims nothing, so there is nothing to check");
    }
    if (set.partsRegistered()) {
      notes.add(
          "the second article was registered on its own parts, so its panel offset and rotation say"
              + " nothing");
    } else if (!rows.prior().stated()) {
      notes.add(
          "how well the panel offset repeats from panel to panel is not stated; "
              + NumberWords.um(rows.prior().registration()[0])
              + " is taken (common practice on fiducials is 5 to 20 um): state"
              + " machine.panelRepeatability");
    }
  }
}
