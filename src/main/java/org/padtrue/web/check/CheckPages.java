package org.padtrue.web.check;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.padtrue.apply.AsEntered;
import org.padtrue.apply.SecondArticleCheck;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.QuestionException;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.web.begin.Begin;
import org.padtrue.web.begin.WhichView;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.kept.Before;
import org.padtrue.web.kept.Entered;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;

/** One more panel is placed with the trims of an article entered: did they hold? */
public final class CheckPages {
  private final Bench bench;

  public CheckPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/check", this::page);
    routes.get("/articles/{article}/check.json", this::json);
  }

  /** What is held against what. */
  record Checked(SecondArticleCheck check, StoredAnalysis before) {}

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    WhichView which = new Begin(bench).which(a);
    String first = bench.workspace().nameOf(a.about().after());
    CheckViews views;
    CheckView view;
    try {
      LoadedJob job = folder.load();
      views = new CheckViews(a, job.job().name(), first, which);
      if (a.about().after().isEmpty()) {
        view = views.without(List.of());
      } else {
        List<Object> of =
            List.of(new Same(job), a.about(), a.journal().last(), which, Entered.text(a.folder()));
        CheckViews known = views;
        bench
            .pages()
            .show(ctx, "check", a.about().name(), "jobs", of, () -> answered(a, job, known));
        return;
      }
    } catch (InputException e) {
      views = new CheckViews(a, folder.id(), first, which);
      view = views.without(JobFolder.sentences(e, folder.folder()));
    }
    bench.pages().show(ctx, "check", a.about().name(), "jobs", view);
  }

  private static CheckView answered(BenchArticle a, LoadedJob job, CheckViews views) {
    try {
      Checked c = check(a, job);
      return views.of(c.check().result(), c.before());
    } catch (QuestionException e) {
      return views.without(
          List.of(
              e.question().sentence()
                  + ". If it is really so, say so where this article's result is shown."));
    } catch (InputException e) {
      return views.without(JobFolder.sentences(e, a.folder()));
    }
  }

  static Checked check(BenchArticle a, LoadedJob job) {
    StoredAnalysis before = Before.read(a.folder());
    Article second = a.article(job);
    if (second.measured().isEmpty()) {
      throw new InputException(
          Problem.of(
              a.about().name(),
              "nothing was measured on it yet",
              "measure some of its placements"));
    }
    AsEntered entered = new AsEntered(before, Entered.read(a.folder(), before.trims()));
    return new Checked(SecondArticleCheck.of(job, before, entered, List.of(second)), before);
  }

  private void json(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    if (a.about().after().isEmpty()) {
      throw Refusal.notThere("Nobody said which article's trims were entered before this one.");
    }
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    SecondArticleCheck c = check(a, job).check();
    Downloads.send(
        ctx,
        "check.json",
        "application/json; charset=utf-8",
        TrimCheckReport.json(c.result(), c.head()));
  }
}
