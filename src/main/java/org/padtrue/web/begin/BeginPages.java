package org.padtrue.web.begin;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.apply.EnteredLine;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.bench.PanelKind;
import org.padtrue.web.bench.WhatIf;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;

/** Panels begun on a job's page, one more after its trims, and which panel an article is. */
public final class BeginPages {
  private final Bench bench;
  private final Begin begin;

  public BeginPages(Bench bench) {
    this.bench = bench;
    begin = new Begin(bench);
  }

  public void routes(RoutesConfig routes) {
    routes.post("/jobs/{job}/articles", this::begin);
    routes.post("/articles/{article}/next", this::next);
    routes.get("/articles/{article}/which", this::page);
    routes.post("/articles/{article}/after", this::say);
  }

  private void begin(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    String count = Fields.line(ctx, "count");
    List<String> places;
    if (count.isEmpty() && Begin.kind(ctx) == PanelKind.AFTER) {
      // what was measured before is measured again
      places = bench.workspace().article(Fields.line(ctx, "first")).listed(job);
    } else {
      places =
          MeasuringPlan.of(job.job(), options(count)).lines().stream()
              .map(l -> l.column() + "/" + l.row() + "/" + l.ref())
              .toList();
    }
    BenchArticle a = begin.of(ctx, j, job, places);
    ctx.redirect("/articles/" + a.id(), HttpStatus.SEE_OTHER);
  }

  private static MeasuringPlanOptions options(String count) {
    MeasuringPlanOptions o = MeasuringPlanOptions.withDefaults();
    if (count.isEmpty()) {
      return o;
    }
    if (!count.matches("\\d{1,5}") || Integer.parseInt(count) == 0) {
      throw Refusal.bad(
          "'" + count + "' is no number of placements; write one, or leave it empty.");
    }
    return o.withCount(Integer.parseInt(count));
  }

  /** Trims are entered; the next panel is measured at the same placements, in the same order. */
  private void next(Context ctx) throws IOException {
    BenchArticle first = bench.article(ctx);
    JobFolder folder = bench.workspace().job(first.about().job());
    LoadedJob job = folder.load();
    FirstArticleResult decided = begin.decided(first, job);
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
    int panels = Begin.panels(Fields.line(ctx, "panels"));
    BenchArticle second = begin.next(first, folder, job, decided, entered, panels);
    ctx.redirect("/articles/" + second.id(), HttpStatus.SEE_OTHER);
  }

  private void page(Context ctx) throws IOException {
    // without the sentence that asks for this page
    BenchArticle a = bench.workspace().article(ctx.pathParam("article"));
    bench.pages().show(ctx, "which", a.about().name(), "jobs", begin.which(a));
  }

  /** Somebody says which panel it is, and which article's trims were entered before it. */
  private void say(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    String first = Fields.line(ctx, "first");
    PanelKind said = Begin.kind(ctx);
    PanelKind kind =
        said != PanelKind.UNSAID ? said : first.isEmpty() ? PanelKind.FIRST : PanelKind.AFTER;
    if (kind == PanelKind.AFTER) {
      begin.tie(a, first);
    } else {
      a.markKind(kind);
    }
    boolean typed = a.about().file().isEmpty() && a.measured().isEmpty();
    String to =
        kind == PanelKind.AFTER && !typed
            ? "/check"
            : Fields.line(ctx, "to").equals("check") ? "/check" : typed ? "" : "/result";
    ctx.redirect("/articles/" + a.id() + to, HttpStatus.SEE_OTHER);
  }
}
