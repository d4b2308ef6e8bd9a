package org.padtrue.web.bench;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.TypedNumbers;

/** Typing in what was measured: the plan, every entry, the fit as it grows. */
public final class MeasurePages {
  private static final int LONGEST_TEXT = 200;
  private static final int MORE = 10;

  private final Bench bench;

  public MeasurePages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.post("/jobs/{job}/articles", this::begin);
    routes.get("/articles/{article}", this::page);
    routes.post("/articles/{article}/entries", this::enter);
    routes.get("/articles/{article}/entries", this::entries);
    routes.post("/articles/{article}/plan", this::plan);
    routes.get("/articles/{article}/fit", this::fit);
    routes.get("/articles/{article}/article.csv", this::download);
  }

  private void begin(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    String name = text(ctx, "name");
    MeasuringPlan plan = MeasuringPlan.of(job.job(), options(text(ctx, "count")));
    BenchArticle a = bench.workspace().newArticle(j, name.isEmpty() ? "First article" : name);
    List<Entry> planned = new ArrayList<>();
    for (MeasuringPlan.PlanLine l : plan.lines()) {
      String key = "P1/" + l.column() + "/" + l.row() + "/" + l.ref();
      planned.add(Entry.of(Entry.Kind.PLANNED, key, Integer.toString(l.order())));
    }
    a.journal().append(planned);
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

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    LoadedJob job = folder.load();
    bench
        .pages()
        .show(
            ctx,
            "measure",
            a.about().name(),
            "jobs",
            MeasureView.of(a, job, bench.analyses().growing(a, job)));
  }

  private void enter(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    Places.Place place =
        Places.of(job.job())
            .find(text(ctx, "placement"))
            .orElseThrow(() -> Refusal.bad("There is no such placement in this job."));
    LengthUnit unit =
        LengthUnit.parse(text(ctx, "unit"))
            .orElseThrow(() -> Refusal.bad("The unit should be mm, um or mil."));
    boolean pose = text(ctx, "as").equals("pose");
    double dx = length(text(ctx, "x"), unit, "x") - (pose ? place.nominal().xMm() : 0);
    double dy = length(text(ctx, "y"), unit, "y") - (pose ? place.nominal().yMm() : 0);
    double turn = angle(text(ctx, "rotation"), pose ? place.nominal().rotationDeg() : 0);
    Entry e = entry(place, dx, dy, turn, typed(ctx));
    String seen = text(ctx, "seen");
    Entry stood = a.measured().get(place.key());
    Entry kept = a.journal().append(List.of(e)).get(0);
    List<String> remarks = new ArrayList<>();
    if (stood != null
        && TypedNumbers.whole(seen).orElse(0) < stood.sequence()
        && !same(stood, kept)) {
      remarks.add("Another page had entered " + words(stood) + " meanwhile; this one stands now.");
    }
    remarks.addAll(bench.analyses().question(a, job, kept));
    ctx.contentType("text/plain; charset=utf-8")
        .result("saved\t" + kept.sequence() + "\n" + String.join("\n", remarks));
  }

  private static Entry entry(Places.Place p, double dx, double dy, double turn, String typed) {
    if (Double.isNaN(dx) && Double.isNaN(dy) && Double.isNaN(turn)) {
      return Entry.of(Entry.Kind.CLEARED, p.key(), "");
    }
    if (Double.isNaN(dx) || Double.isNaN(dy)) {
      throw Refusal.bad("x and y belong together; write both, or neither.");
    }
    return Entry.measured(p.key(), dx, dy, turn, typed);
  }

  private static boolean same(Entry a, Entry b) {
    return a.dxMm() == b.dxMm()
        && a.dyMm() == b.dyMm()
        && Double.compare(a.dRotationDeg(), b.dRotationDeg()) == 0;
  }

  private static String words(Entry e) {
    return "dx " + ShownNumbers.mm(e.dxMm()) + ", dy " + ShownNumbers.mm(e.dyMm());
  }

  private static double length(String typed, LengthUnit unit, String what) {
    if (typed.isEmpty()) {
      return Double.NaN;
    }
    OptionalDouble v = TypedNumbers.mm(typed, unit);
    return v.orElseThrow(
        () ->
            Refusal.bad("'" + typed + "' in " + what + " is no length; write digits, like 0.025."));
  }

  private static double angle(String typed, double nominal) {
    if (typed.isEmpty()) {
      return Double.NaN;
    }
    double v =
        TypedNumbers.degrees(typed)
            .orElseThrow(
                () -> Refusal.bad("'" + typed + "' in rotation is no angle; write degrees."));
    return nominal == 0 ? v : org.padtrue.quantity.Angles.wrap(v - nominal);
  }

  private static String typed(Context ctx) {
    return String.join(
        " ", text(ctx, "x"), text(ctx, "y"), text(ctx, "rotation"), text(ctx, "unit"));
  }

  private static String text(Context ctx, String name) {
    String s = ctx.formParam(name);
    if (s != null && s.length() > LONGEST_TEXT) {
      throw Refusal.bad("A field holds more than " + LONGEST_TEXT + " characters.");
    }
    return s == null ? "" : s.strip();
  }

  /** Entries after a number, one line each, for pages that look at the same article. */
  private void entries(Context ctx) {
    BenchArticle a = bench.article(ctx);
    String since = ctx.queryParam("since");
    long from = since == null ? 0 : TypedNumbers.whole(since).orElse(0);
    String lines =
        a.journal().since(from).stream()
            .filter(e -> e.kind() == Entry.Kind.MEASURED || e.kind() == Entry.Kind.CLEARED)
            .map(
                e ->
                    String.join(
                        "\t",
                        Long.toString(e.sequence()),
                        e.placement(),
                        ShownNumbers.plain(e.dxMm()),
                        ShownNumbers.plain(e.dyMm()),
                        ShownNumbers.plain(e.dRotationDeg())))
            .collect(Collectors.joining("\n"));
    ctx.contentType("text/plain; charset=utf-8").result(a.journal().last() + "\n" + lines);
  }

  /** More placements at the end of the walk: one by name, or some that tell most. */
  private void plan(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    Job job = bench.workspace().job(a.about().job()).load().job();
    if (!text(ctx, "more").isEmpty()) {
      some(a, job);
      ctx.redirect("/articles/" + a.id(), HttpStatus.SEE_OTHER);
      return;
    }
    Places.Place p =
        Places.of(job)
            .named(text(ctx, "placement"))
            .orElseThrow(
                () ->
                    Refusal.bad(
                        "There is no placement '"
                            + text(ctx, "placement")
                            + "'; write its name, or column/row/name on a panel of several"
                            + " boards."));
    if (!a.planned().contains(p.key())) {
      String place = Integer.toString(a.planned().size() + 1);
      a.journal().append(List.of(Entry.of(Entry.Kind.PLANNED, p.key(), place)));
    }
    ctx.redirect("/articles/" + a.id() + "#row-" + p.key(), HttpStatus.SEE_OTHER);
  }

  private static void some(BenchArticle a, Job job) throws IOException {
    List<String> have = a.planned();
    MeasuringPlan plan =
        MeasuringPlan.of(job, MeasuringPlanOptions.withDefaults().withCount(have.size() + MORE));
    List<Entry> added = new ArrayList<>();
    for (MeasuringPlan.PlanLine l : plan.lines()) {
      String key = "P1/" + l.column() + "/" + l.row() + "/" + l.ref();
      if (!have.contains(key) && !a.measured().containsKey(key) && added.size() < MORE) {
        String place = Integer.toString(have.size() + added.size() + 1);
        added.add(Entry.of(Entry.Kind.PLANNED, key, place));
      }
    }
    a.journal().append(added);
  }

  private void fit(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    bench.pages().piece(ctx, "fit", bench.analyses().growing(a, job));
  }

  private void download(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    ctx.contentType("text/csv; charset=utf-8");
    ctx.header("Content-Disposition", "attachment; filename=\"" + a.id() + ".csv\"");
    ctx.result(a.csv(job));
  }
}
