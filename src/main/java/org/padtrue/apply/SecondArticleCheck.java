package org.padtrue.apply;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.check.TrimCheck;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.door.Door;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredAnalysis;

/**
 * A second article held against a stored analysis: whether they belong together, then the check.
 *
 * @param result what was found
 * @param head what was held against what
 */
public record SecondArticleCheck(TrimCheckResult result, TrimCheckReport.Head head) {
  /**
   * Checks.
   *
   * @param job the job that was analysed
   * @param analysis whose trims were entered
   * @param second articles placed with the trims
   * @throws org.padtrue.problem.InputException when they do not belong together
   * @throws org.padtrue.problem.QuestionException when an article looks like a usual mistake
   */
  public static SecondArticleCheck of(
      LoadedJob job, StoredAnalysis analysis, List<Article> second) {
    return of(job, analysis, new AsEntered(analysis, List.of()), second);
  }

  /**
   * The same where placements were moved as well.
   *
   * @param job the job that was analysed, its placements where they were
   * @param room the moves
   * @param second articles of the moved placements, read with {@link RoomMoves#moved}
   */
  public static SecondArticleCheck of(
      LoadedJob job, StoredAnalysis analysis, RoomMoves room, List<Article> second) {
    AnalysisMatch.require(analysis, job);
    LoadedJob moved = room.moved();
    List<TrimCheckReport.Gap> gaps = GapsSeen.of(moved, room.room(), second);
    SecondArticleCheck c = check(moved, analysis, new AsEntered(analysis, List.of()), second, gaps);
    return new SecondArticleCheck(
        noted(c.result(), GapsSeen.words(gaps, room.room().gapMm())), c.head());
  }

  /**
   * The same where something else was entered than the analysis says.
   *
   * @param entered the analysis with the trims as they were entered
   */
  public static SecondArticleCheck of(
      LoadedJob job, StoredAnalysis analysis, AsEntered entered, List<Article> second) {
    AnalysisMatch.require(analysis, job);
    return check(job, analysis, entered, second, List.of());
  }

  private static SecondArticleCheck check(
      LoadedJob job,
      StoredAnalysis analysis,
      AsEntered entered,
      List<Article> second,
      List<TrimCheckReport.Gap> gaps) {
    SecondArticle.require(analysis, second);
    Door.require(job.job(), second, job.asIs());
    TrimCheckResult r =
        TrimCheck.run(job.job(), TrimCheckReport.before(entered.analysis()), second);
    return new SecondArticleCheck(
        noted(r, entered.differences()),
        new TrimCheckReport.Head(
            analysis.hash(),
            analysis.job(),
            analysis.articles(),
            second.stream().map(Article::file).toList(),
            gaps));
  }

  private static TrimCheckResult noted(TrimCheckResult r, List<String> more) {
    List<String> notes = new ArrayList<>(more);
    notes.addAll(r.notes());
    return new TrimCheckResult(
        r.verdict(),
        r.chiSquare(),
        r.degreesOfFreedom(),
        r.p(),
        r.terms(),
        r.placements(),
        r.scatterRatio(),
        r.excluded(),
        notes);
  }
}
