package org.padtrue.web.bench;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.problem.InputException;
import org.padtrue.report.plot.PanelDrawing;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.web.kept.BillWords;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Uploads;

/** Jobs: what there is, a new one from dropped files, one of them in full. */
public final class HomePages {
  private final Bench bench;

  public HomePages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/", this::home);
    routes.get("/token", ctx -> bench.pages().token(ctx));
    routes.post("/jobs", this::make);
    routes.get("/jobs/{job}", this::job);
    routes.get("/jobs/{job}/panel.svg", this::panel);
    routes.post("/jobs/{job}/settings", this::settings);
    routes.post("/jobs/{job}/files", this::files);
  }

  private void home(Context ctx) throws IOException {
    String wanted = Fields.query(ctx, "q");
    List<HomeView.JobLine> jobs = new ArrayList<>();
    Map<String, String> names = new HashMap<>();
    List<JobFolder> all = bench.workspace().jobs();
    for (JobFolder j : all) {
      HomeView.JobLine line = new HomeView.JobLine(j.id(), j.name(), facts(j));
      names.put(j.id(), line.name());
      if (holds(wanted, line.id(), line.name(), line.facts())) {
        jobs.add(line);
      }
    }
    List<ArticleLine> articles = new ArrayList<>();
    for (BenchArticle a : bench.workspace().articles(null)) {
      ArticleLine line = ArticleLine.of(a);
      String job = names.getOrDefault(line.job(), line.job());
      if (holds(wanted, line.name(), line.job(), job, line.state(), line.begun())) {
        articles.add(line);
      }
    }
    HomeView view = new HomeView(jobs, articles, bench.workspace().skipped(), wanted, all.size());
    bench.pages().show(ctx, "home", "Jobs", "jobs", view);
  }

  /** True when every word is in one of the texts, whatever its case. */
  private static boolean holds(String wanted, String... texts) {
    String all = String.join("\n", texts).toLowerCase(Locale.ROOT);
    return Arrays.stream(wanted.toLowerCase(Locale.ROOT).split(" ", -1)).allMatch(all::contains);
  }

  private static String facts(JobFolder j) {
    try {
      Job job = j.load().job();
      int boards = job.array().boards().size();
      return job.placements().size()
          + " placements"
          + (boards > 1 ? " on each of " + boards + " boards" : "")
          + ", "
          + job.side().name().toLowerCase(Locale.ROOT)
          + " side";
    } catch (InputException e) {
      return "cannot be read yet";
    }
  }

  private void make(Context ctx) throws IOException {
    NewJob.Made made = new NewJob(bench.workspace()).of(Uploads.of(ctx, "files"));
    if (made.articles().size() == 1) {
      ctx.redirect("/articles/" + made.articles().get(0).id() + "/result", HttpStatus.SEE_OTHER);
    } else {
      ctx.redirect("/jobs/" + made.job().id(), HttpStatus.SEE_OTHER);
    }
  }

  private void job(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    List<String> problems = new ArrayList<>();
    LoadedJob loaded = null;
    try {
      loaded = j.load();
    } catch (InputException e) {
      List<String> said = JobFolder.sentences(e, j.folder());
      problems.addAll(j.drafted() ? said.stream().map(BillWords::forPage).toList() : said);
    }
    JobSettings settings = null;
    try {
      settings = j.drafted() ? JobSettings.read(j.folder()) : null;
    } catch (InputException e) {
      problems.addAll(JobFolder.sentences(e, j.folder()));
    }
    List<ArticleLine> articles = new ArrayList<>();
    for (BenchArticle a : bench.workspace().articles(j.id())) {
      articles.add(ArticleLine.of(a));
    }
    bench
        .pages()
        .show(
            ctx,
            "job",
            j.name(),
            "jobs",
            new JobView(
                j.id(),
                j.name(),
                facts(j),
                problems,
                loaded == null ? List.of() : notes(j, loaded),
                settings,
                loaded == null ? null : MapView.of(loaded.job()),
                articles));
  }

  /** The panel as understood, for whoever holds it beside the board. */
  private void panel(Context ctx) {
    LoadedJob loaded;
    try {
      loaded = bench.job(ctx).load();
    } catch (InputException e) {
      throw Refusal.bad("The job cannot be read.");
    }
    if (loaded.job().placements().isEmpty()) {
      throw Refusal.bad("The job places nothing.");
    }
    ctx.header("Cache-Control", "no-store");
    DrawnChart drawn = PanelDrawing.render(loaded, Set.of(ChartFormat.SVG));
    ctx.contentType("image/svg+xml").result(drawn.file(ChartFormat.SVG));
  }

  /** How the files were understood, and which of them nothing was made of. */
  private static List<String> notes(JobFolder j, LoadedJob loaded) throws IOException {
    List<String> notes = new ArrayList<>(JobFolder.plain(loaded.job().notes(), j.folder()));
    for (String file : NewJob.unused(j)) {
      notes.add(file + " is not used: " + NewJob.why(j, loaded, file));
    }
    return notes;
  }

  private void settings(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    if (!j.drafted()) {
      throw Refusal.bad("This job came with its own job file; send a new one instead.");
    }
    UnaryOperator<@Nullable String> form =
        key -> key.equals("accepts") ? String.join(",", ctx.formParams(key)) : ctx.formParam(key);
    JobSettings.read(j.folder()).with(form).write(j.folder());
    new NewJob(bench.workspace()).adopt(j);
    ctx.redirect("/jobs/" + j.id(), HttpStatus.SEE_OTHER);
  }

  /** More files for a job: they take the place of files of the same name; articles are adopted. */
  private void files(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    List<String> names = NewJob.sent(bench.workspace(), Uploads.of(ctx, "files"), j.folder());
    if (names.contains(JobFolder.JOB)) {
      java.nio.file.Files.deleteIfExists(j.folder().resolve(JobSettings.FILE));
    }
    NewJob.bill(j, names);
    List<BenchArticle> made = new NewJob(bench.workspace()).adopt(j);
    ctx.redirect(made.size() == 1 ? first(made.get(0)) : "/jobs/" + j.id(), HttpStatus.SEE_OTHER);
  }

  /** Where an article that was sent is shown first: what it is comes before what it says. */
  private static String first(BenchArticle a) {
    boolean said = a.about().kind() != PanelKind.UNSAID;
    return "/articles/" + a.id() + (said ? "/result" : "/which");
  }
}
