package org.padtrue.web.plan;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.next.PlacingScatter;
import org.padtrue.history.ArticleLog;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.PlanScatter;
import org.padtrue.log.ScatterFromLog;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.problem.InputException;
import org.padtrue.report.PlanReport;
import org.padtrue.report.plot.PlanCharts;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.web.begin.Begin;
import org.padtrue.web.bench.ArticleLine;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.kept.Working;
import org.padtrue.web.kept.WorkingView;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;
import org.padtrue.web.server.ShownNumbers;

/** Which placements to measure: chosen, looked at, printed, begun. */
public final class PlanPages {
  private static final Duration SHORT_WAIT = Duration.ofMillis(1500);
  private static final String LOG = "log ";

  private final Bench bench;
  private final Working<Planned> working = new Working<>();

  public PlanPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/jobs/{job}/plan", this::page);
    routes.post("/jobs/{job}/plan", this::begin);
    routes.get("/jobs/{job}/plan/form", this::form);
    routes.get("/jobs/{job}/plan/to-measure.csv", this::csv);
    routes.get("/jobs/{job}/plan/{chart}", this::chart);
  }

  /** A plan and where its scatter comes from. */
  private record Planned(MeasuringPlan plan, List<String> scatter) {}

  /** What a plan is made of; the log is looked at anew every minute. */
  private List<Object> key(LoadedJob job, PlanAsked asked) {
    Begin.panels(asked.panels());
    List<Object> key = asked.parts();
    key.add(new Same(job));
    if (asked.earlier().startsWith(LOG)) {
      key.add(Instant.now().truncatedTo(ChronoUnit.MINUTES));
    } else if (!asked.earlier().isEmpty()) {
      key.add(bench.workspace().article(asked.earlier()).journal().last());
    }
    return key;
  }

  private Planned planned(JobFolder j, LoadedJob job, PlanAsked asked) {
    int count = asked.number();
    double within = asked.withinMm().orElse(Double.NaN);
    List<String> sources = new ArrayList<>();
    PlacingScatter earlier = earlier(j, job, asked.earlier(), sources);
    PlanScatter s =
        PlanScatter.of(
            job.job(),
            earlier,
            asked.scatter().isEmpty() ? null : asked.scatter(),
            asked.rotationScatter().isEmpty() ? null : asked.rotationScatter(),
            new PlanScatter.Fields("the scatter", "the rotation scatter"));
    if (s.practiceMm()) {
      sources.add(
          "Scatter "
              + ShownNumbers.number(s.options().scatterMm(), 3)
              + " mm is common practice, not this machine's: write the one that a result names, or"
              + " take it from an earlier article.");
    }
    if (s.practiceDeg()) {
      sources.add(
          "Rotation scatter "
              + ShownNumbers.number(s.options().scatterRotationDeg(), 2)
              + "\u00b0 is common practice, not this machine's.");
    }
    MeasuringPlanOptions o = s.options();
    o = count == 0 ? o : o.withCount(count);
    o = Double.isNaN(within) ? o : o.withWithinMm(within);
    return new Planned(MeasuringPlan.of(job.job(), o), sources);
  }

  private @Nullable PlacingScatter earlier(
      JobFolder j, LoadedJob job, String from, List<String> sources) {
    if (from.isEmpty()) {
      return null;
    }
    if (from.startsWith(LOG)) {
      try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
        ScatterFromLog s = ScatterFromLog.of(job.job(), log, from.substring(LOG.length()));
        sources.add(
            String.format(
                Locale.ROOT,
                "Scatter by part type from %s (%s) of machine %s in the log, %s; part types that"
                    + " they do not have: %.3f mm.",
                ShownNumbers.count(s.articles(), "article"),
                s.sameJob() ? "this job" : "other jobs",
                s.machine(),
                ShownNumbers.count(s.scatter().placements(), "placement"),
                s.scatter().mm()));
        return s.scatter();
      }
    }
    BenchArticle a = bench.workspace().article(from);
    FirstArticleResult r = a.about().job().equals(j.id()) ? bench.analyses().result(a, job) : null;
    PlacingScatter s = r == null ? null : PlacingScatter.of(List.of(r.placements()), job.job());
    if (s == null || Double.isNaN(s.mm())) {
      throw Refusal.bad(
          "Article " + a.about().name() + " has too few placements to tell the scatter.");
    }
    sources.add(
        String.format(
            Locale.ROOT,
            "Scatter by part type from %s, %s; part types that it does not have: %.3f mm.",
            a.about().name(),
            ShownNumbers.count(s.placements(), "placement"),
            s.mm()));
    return s;
  }

  private List<PlanView.Source> sources(JobFolder j) throws IOException {
    List<PlanView.Source> all = new ArrayList<>();
    if (ArticleLog.exists(bench.historyUrl())) {
      try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
        log.machines().forEach(m -> all.add(new PlanView.Source(LOG + m, "the log, machine " + m)));
      }
    }
    for (BenchArticle a : bench.workspace().articles(j.id())) {
      all.add(new PlanView.Source(a.id(), "article " + a.about().name()));
    }
    return all;
  }

  private List<ArticleLine> articles(JobFolder j) throws IOException {
    List<ArticleLine> all = new ArrayList<>();
    for (BenchArticle a : bench.workspace().articles(j.id())) {
      all.add(ArticleLine.of(a));
    }
    return all;
  }

  private void page(Context ctx) throws IOException {
    shown(ctx, "plan", "Measuring plan");
  }

  /** The blank form, to be printed and filled in at the machine. */
  private void form(Context ctx) throws IOException {
    shown(ctx, "plan-form", "To measure");
  }

  private void shown(Context ctx, String template, String title) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    PlanAsked asked = PlanAsked.query(ctx);
    PlanViews views = new PlanViews(j.id(), job, asked, sources(j), articles(j));
    PlanView view;
    try {
      List<Object> key = key(job, asked);
      Optional<Planned> p = working.within(SHORT_WAIT, key, () -> planned(j, job, asked));
      if (p.isEmpty()) {
        ctx.header("X-Wait", "yes");
        bench
            .pages()
            .show(
                ctx,
                "working",
                title,
                "jobs",
                new WorkingView(
                    title,
                    "/jobs/" + j.id(),
                    job.job().name(),
                    "Choosing among "
                        + ShownNumbers.count(
                            (long) job.job().placements().size()
                                * job.job().array().boards().size(),
                            "placement"),
                    ShownNumbers.count(working.since(key).toSeconds(), "second")));
        return;
      }
      view = views.of(p.get().plan(), p.get().scatter());
    } catch (Refusal e) {
      view = views.without(List.of(String.valueOf(e.getMessage())));
    } catch (InputException e) {
      view = views.without(JobFolder.sentences(e, j.folder()));
    }
    bench.pages().show(ctx, template, title + ", " + job.job().name(), "jobs", view);
  }

  private void begin(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    PlanAsked asked = PlanAsked.form(ctx);
    MeasuringPlan plan = working.now(key(job, asked), () -> planned(j, job, asked)).plan();
    List<String> places =
        plan.lines().stream().map(l -> l.column() + "/" + l.row() + "/" + l.ref()).toList();
    BenchArticle a = new Begin(bench).of(ctx, j, job, places);
    ctx.redirect("/articles/" + a.id(), HttpStatus.SEE_OTHER);
  }

  private Planned asked(JobFolder j, LoadedJob job, PlanAsked asked) {
    return working.now(key(job, asked), () -> planned(j, job, asked));
  }

  private void csv(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PlanAsked asked = PlanAsked.query(ctx);
    int panels = Begin.panels(asked.panels());
    PlanReport.table(asked(j, j.load(), asked).plan(), true, panels, out);
    Downloads.send(ctx, "to-measure.csv", "text/csv; charset=utf-8", out.toByteArray());
  }

  private void chart(Context ctx) {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    PlanAsked asked = PlanAsked.query(ctx);
    Planned p = asked(j, job, asked);
    double wanted = asked.withinMm().orElse(Double.NaN);
    DrawnChart c =
        PlanCharts.render(job.job(), p.plan(), wanted, Set.of(ChartFormat.SVG)).stream()
            .filter(d -> (d.name() + ".svg").equals(ctx.pathParam("chart")))
            .findFirst()
            .orElseThrow(() -> Refusal.notThere("There is no such chart."));
    ctx.contentType("image/svg+xml").result(c.file(ChartFormat.SVG));
  }
}
