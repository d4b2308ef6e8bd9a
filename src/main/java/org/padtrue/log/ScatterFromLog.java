package org.padtrue.log;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.next.PlacingScatter;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Scatter of placing by part type from the articles of a machine in the log: those of the job where
 * there are any, else those of its other jobs. The newest count.
 *
 * @param scatter what they show
 * @param articles how many were read
 * @param machine whose they are
 * @param sameJob true when they are of the job asked for
 */
public record ScatterFromLog(
    PlacingScatter scatter, int articles, String machine, boolean sameJob) {
  private static final int NEWEST = 12;

  /**
   * Reads it.
   *
   * @param job the job that is planned
   * @param log open to read
   * @param machine a machine's name, or null when the log has only one
   * @throws InputException when the log has no article that tells it
   */
  public static ScatterFromLog of(Job job, ArticleLog log, @Nullable String machine) {
    String name = DriftStudy.machine(log, machine);
    List<ArticleEntry> entries = standing(log, name, job.name());
    boolean same = !entries.isEmpty();
    entries = same ? entries : standing(log, name, null);
    List<List<PlacementResult>> all = new ArrayList<>();
    for (ArticleEntry e : entries.subList(Math.max(0, entries.size() - NEWEST), entries.size())) {
      LoggedArticle a = log.article(e.id()).orElse(null);
      if (a != null) {
        analysed(a, job, all);
      }
    }
    PlacingScatter s = PlacingScatter.of(all, job);
    if (Double.isNaN(s.mm())) {
      throw new InputException(
          Problem.of(
              "",
              "the log has no article of machine " + name + " that tells the scatter of placing",
              "record one, or give --scatter"));
    }
    return new ScatterFromLog(s, all.size(), name, same);
  }

  private static List<ArticleEntry> standing(ArticleLog log, String machine, @Nullable String job) {
    return log.articles(machine, job).stream().filter(ArticleEntry::stands).toList();
  }

  private static void analysed(LoggedArticle a, Job job, List<List<PlacementResult>> all) {
    List<Placement> placements = new ArrayList<>();
    List<Measured> rows = new ArrayList<>();
    Set<String> once = new HashSet<>();
    Set<String> named = new HashSet<>();
    for (LoggedPlacement p : a.placements()) {
      String ref = p.column() + "/" + p.row() + "/" + p.ref();
      if (!p.used() || !once.add(p.panel() + "/" + ref)) {
        continue;
      }
      Pose nominal = new Pose(p.xMm(), p.yMm(), p.rotationDeg());
      Placement q = new Placement(ref, p.part(), nominal, p.levels(), Double.NaN, 0);
      if (named.add(ref)) {
        placements.add(q);
      }
      rows.add(
          new Measured(
              p.panel(),
              new BoardIndex(1, 1),
              q,
              nominal,
              p.dxMm(),
              p.dyMm(),
              p.dRotationDeg(),
              p.uMm(),
              Double.NaN,
              p.levels(),
              Double.NaN,
              "",
              rows.size() + 1));
    }
    Article article =
        new Article(a.file(), rows, List.of(), false, false, OptionalDouble.empty(), List.of());
    try {
      all.add(
          FirstArticleAnalysis.run(
                  single(job, placements), List.of(article), AnalysisOptions.withDefaults())
              .placements());
    } catch (InputException tooLittle) {
      // An article that determines nothing tells no scatter either.
    }
  }

  /** The logged placements as a job of one board: poses in the log are the panel's. */
  private static Job single(Job job, List<Placement> placements) {
    return new Job(
        job.name(),
        job.side(),
        job.stage(),
        placements,
        List.of(),
        Map.of(),
        BoardArray.single(),
        List.of(),
        job.acceptanceClass(),
        job.machine(),
        job.measurement(),
        List.of());
  }
}
