package org.padtrue.web.check;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.apply.AsEntered;
import org.padtrue.apply.EnteredLine;
import org.padtrue.apply.SecondArticleCheck;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.QuestionException;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.bench.WhatIf;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;

/** One more panel is placed with the trims of an article entered: did they hold? */
public final class CheckPages {
  private final Bench bench;

  public CheckPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.post("/articles/{article}/next", this::next);
    routes.post("/articles/{article}/after", this::after);
    routes.get("/articles/{article}/check", this::page);
    routes.get("/articles/{article}/check.json", this::json);
  }

  /** What is held against what. */
  record Checked(SecondArticleCheck check, StoredAnalysis before) {}

  /** Trims are entered; the next panel is measured at the same placements, in the same order. */
  private void next(Context ctx) throws IOException {
    BenchArticle first = bench.article(ctx);
    JobFolder folder = bench.workspace().job(first.about().job());
    LoadedJob job = folder.load();
    FirstArticleResult decided = decided(first, job);
    Set<String> off = new LinkedHashSet<>();
    decided.trims().forEach(t -> off.add(WhatIf.key(t)));
    off.removeAll(ctx.formParams("entered"));
    if (off.size() == decided.trims().stream().map(WhatIf::key).distinct().count()) {
      throw Refusal.bad(
          "No trim is ticked as entered, so there is nothing that one more panel could"
              + " show; tick those that were entered.");
    }
    List<EnteredLine> entered =
        decided.trims().stream()
            .map(t -> off.contains(WhatIf.key(t)) ? EnteredLine.not(t) : EnteredLine.asProposed(t))
            .toList();
    BenchArticle second =
        bench
            .workspace()
            .newArticle(
                folder,
                after(first),
                first,
                first.listed(job),
                aside -> {
                  Before.write(decided, aside);
                  Entered.write(aside, entered);
                });
    ctx.redirect("/articles/" + second.id(), HttpStatus.SEE_OTHER);
  }

  private static String after(BenchArticle first) {
    String name = first.about().name();
    return (name.length() > 60 ? name.substring(0, 60) : name) + ", trims entered";
  }

  /** Somebody says which article's trims were entered before this panel was placed. */
  private void after(Context ctx) throws IOException {
    BenchArticle second = bench.article(ctx);
    String id = Fields.line(ctx, "first");
    if (id.isEmpty()) {
      second.placeAfter("");
    } else {
      BenchArticle first = bench.workspace().article(id);
      if (first.id().equals(second.id()) || !first.about().job().equals(second.about().job())) {
        throw Refusal.bad("That is no other article of this job.");
      }
      LoadedJob job = bench.workspace().job(first.about().job()).load();
      second.placeAfter("");
      Entered.forget(second.folder());
      Before.write(decided(first, job), second.folder());
      second.placeAfter(first.id());
    }
    ctx.redirect("/articles/" + second.id() + "/check", HttpStatus.SEE_OTHER);
  }

  private FirstArticleResult decided(BenchArticle a, LoadedJob job) {
    FirstArticleResult r = bench.analyses().result(a, job);
    if (r == null) {
      throw Refusal.bad(
          "There is no result of " + a.about().name() + " yet, so none of its trims was entered.");
    }
    return r;
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    List<CheckView.Other> others = others(a);
    String first = bench.workspace().nameOf(a.about().after());
    CheckViews views;
    CheckView view;
    try {
      LoadedJob job = folder.load();
      views = new CheckViews(a, job.job().name(), first, others);
      if (a.about().after().isEmpty()) {
        view = views.without(List.of());
      } else {
        List<Object> of =
            List.of(
                new Same(job),
                a.about(),
                a.journal().last(),
                List.copyOf(others),
                Entered.text(a.folder()));
        CheckViews known = views;
        bench
            .pages()
            .show(ctx, "check", a.about().name(), "jobs", of, () -> answered(a, job, known));
        return;
      }
    } catch (InputException e) {
      views = new CheckViews(a, folder.id(), first, others);
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

  /** Other articles of the job, the newest first. */
  private List<CheckView.Other> others(BenchArticle a) throws IOException {
    List<CheckView.Other> out = new ArrayList<>();
    for (BenchArticle o : bench.workspace().articles(a.about().job())) {
      if (!o.id().equals(a.id())) {
        out.add(new CheckView.Other(o.id(), o.about().name()));
      }
    }
    return out;
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
