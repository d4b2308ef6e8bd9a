package org.padtrue.web.result;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.load.job.JobAnswers;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Question;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.bench.RecordForm;
import org.padtrue.web.bench.Recorder;
import org.padtrue.web.bench.WhatIf;
import org.padtrue.web.picture.PictureReadings;
import org.padtrue.web.picture.PictureWork;
import org.padtrue.web.picture.PicturesView;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Notice;
import org.padtrue.web.server.Pages;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Uploads;

/** What an article shows: the trim sheet, the map, the evidence. */
public final class ResultPages {
  private final Bench bench;

  /** A result that takes longer says so meanwhile. */
  private static final Duration SHORT_WAIT = Duration.ofSeconds(2);

  public ResultPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/result", this::page);
    routes.post("/articles/{article}/as-is", this::asIs);
    routes.post("/articles/{article}/file", this::mended);
    routes.get("/articles/{article}/placement", this::placement);
    routes.get("/articles/{article}/analysis.json", this::json);
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    if (folder.machineUnsaid()) {
      Pages.notice(
          ctx,
          new Notice(
              "Nobody has said yet in which steps the machine takes trims, which ones it takes, and"
                  + " how exactly was measured. Until then: steps of 0.001 mm, 0.01\u00b0 (a part)"
                  + " and 0.001\u00b0 (the panel), every trim, measuring error not known.",
              "/jobs/" + folder.id() + "#machine",
              "Say it now"));
    }
    ResultView view;
    try {
      LoadedJob job = folder.load();
      if (!bench.analyses().soon(a, job, SHORT_WAIT)) {
        waiting(ctx, a, job);
        return;
      }
      FirstArticleResult r = bench.analyses().result(a, job);
      if (r != null) {
        shown(ctx, a, job, r);
        return;
      }
      view =
          ResultViews.without(
              a,
              job.job().name(),
              bench.analyses().problems(a, job),
              bench.analyses().asked(a, job));
    } catch (InputException e) {
      view = ResultViews.without(a, folder.id(), JobFolder.sentences(e, folder.folder()), null);
    }
    bench.pages().show(ctx, "result", a.about().name(), "jobs", view);
  }

  private void shown(Context ctx, BenchArticle a, LoadedJob job, FirstArticleResult r)
      throws IOException {
    WhatIf what = WhatIf.of(ctx);
    RecordForm form = new Recorder(bench).form(a);
    String panel = Fields.query(ctx, "panel");
    FirstArticleResult tried = what.isNothing() ? r : bench.analyses().tried(a, job, what);
    Supplier<Object> view =
        () -> new ResultViews(tried, panel).of(a, form, WhatIfViews.of(what, r, tried));
    if (what.isNothing()) {
      List<Object> of = List.of(new Same(r), a.about(), form);
      bench.pages().show(ctx, "result", a.about().name(), "jobs", of, view);
    } else {
      bench.pages().show(ctx, "result", a.about().name(), "jobs", view.get());
    }
  }

  /** The page asks again by itself. */
  private void waiting(Context ctx, BenchArticle a, LoadedJob job) {
    ctx.header("X-Wait", "yes");
    bench
        .pages()
        .show(
            ctx,
            "waiting",
            a.about().name(),
            "jobs",
            new WaitingView(
                a.id(),
                a.about().name(),
                a.about().job(),
                job.job().name(),
                ShownNumbers.count(job.job().placements().size(), "placement")
                    + (job.job().array().boards().size() > 1
                        ? " on each of " + job.job().array().boards().size() + " boards"
                        : ""),
                ShownNumbers.count(bench.analyses().running(a).toSeconds(), "second")));
  }

  /** Somebody says that what looks like a mistake is really so: kept in the job. */
  private void asIs(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    Question asked = bench.analyses().asked(a, folder.load());
    if (asked == null || !asked.key().equals(Fields.line(ctx, "key"))) {
      throw Refusal.bad("That is not asked any more; look at the result again.");
    }
    JobAnswers.add(folder.jobFile(), Set.of(asked.key()));
    ctx.redirect("/articles/" + a.id() + "/result", HttpStatus.SEE_OTHER);
  }

  /** A mended file takes the place of one that was asked about or could not be read. */
  private void mended(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    if (a.about().file().isEmpty() || bench.analyses().result(a, job) != null) {
      throw Refusal.bad("This article's file is not asked about, so it stays as it is.");
    }
    Uploads.replace(Uploads.of(ctx, "files"), FileNames.within(a.folder(), a.about().file()));
    bench.analyses().forget(a);
    ctx.redirect("/articles/" + a.id() + "/result", HttpStatus.SEE_OTHER);
  }

  private FirstArticleResult result(Context ctx) {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    FirstArticleResult r = bench.analyses().result(a, job);
    if (r == null) {
      throw Refusal.bad(String.join(" ", bench.analyses().problems(a, job)));
    }
    return r;
  }

  /** What is known of one placement, as a piece of a page. */
  private void placement(Context ctx) throws IOException {
    String key = String.valueOf(ctx.queryParam("key"));
    FirstArticleResult r = result(ctx);
    List<PlacementResult> found =
        r.placements().stream().filter(p -> (p.panel() + "/" + p.id()).equals(key)).toList();
    if (found.isEmpty()) {
      throw Refusal.notThere("There is no such placement here.");
    }
    BenchArticle a = bench.article(ctx);
    bench
        .pages()
        .piece(ctx, "placement", PlacementView.of(r, found.get(0), crop(a, r, key), a.id()));
  }

  private static PicturesView.@Nullable Card crop(BenchArticle a, FirstArticleResult r, String key)
      throws IOException {
    Path folder = PictureWork.folder(a);
    return PictureReadings.in(folder)
        ? PicturesView.card(PictureReadings.read(folder), r.job(), key)
        : null;
  }

  private void json(Context ctx) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AnalysisJson.write(result(ctx), out);
    ctx.contentType("application/json; charset=utf-8");
    ctx.header("Content-Disposition", "attachment; filename=\"analysis.json\"");
    ctx.result(out.toByteArray());
  }
}
