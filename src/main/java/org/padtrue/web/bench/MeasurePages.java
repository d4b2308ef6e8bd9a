package org.padtrue.web.bench;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;
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
    routes.get("/articles/{article}", this::page);
    routes.post("/articles/{article}/entries", this::enter);
    routes.get("/articles/{article}/entries", this::entries);
    routes.post("/articles/{article}/plan", this::plan);
    routes.get("/articles/{article}/fit", this::fit);
    routes.get("/articles/{article}/rows", this::rows);
    routes.get("/articles/{article}/near", this::near);
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    LoadedJob job = folder.load();
    FitView fit = bench.analyses().growing(a, job);
    List<Object> of = List.of(new Same(job), a.about(), a.journal().last(), fit);
    bench
        .pages()
        .show(ctx, "measure", a.about().name(), "jobs", of, () -> MeasureView.of(a, job, fit));
  }

  /**
   * One placement as typed. The answer comes when the line is on disk, before anything is reckoned:
   * {@code saved} (or {@code clash}: something that this page has not seen stands there, nothing
   * was changed) with what stands now, tab-separated; then a sentence where there is one to say.
   */
  private void enter(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    Places.Place place =
        Places.of(job.job())
            .find(text(ctx, "placement"))
            .filter(p -> a.panels(job).contains(Places.panel(p.key())))
            .orElseThrow(() -> Refusal.bad("There is no such placement in this job."));
    String seen = text(ctx, "seen");
    Typed typed = typed(ctx, place, a.journal().standing(place.key()));
    EntryJournal.Entered e =
        a.journal()
            .enter(
                typed.entry(),
                seen.isEmpty() ? Long.MAX_VALUE : TypedNumbers.whole(seen).orElse(0));
    ctx.contentType("text/plain; charset=utf-8");
    if (e.taken()) {
      ctx.result("saved\t" + stands(e.entry()) + "\n" + typed.remark());
    } else {
      ctx.status(HttpStatus.CONFLICT)
          .result("clash\t" + stands(e.entry()) + "\n" + Typed.clash(e.entry()));
    }
  }

  private static Typed typed(Context ctx, Places.Place place, @Nullable Entry stands) {
    LengthUnit unit =
        LengthUnit.parse(text(ctx, "unit"))
            .orElseThrow(() -> Refusal.bad("The unit should be mm, um or mil."));
    return Typed.of(
        place,
        text(ctx, "x"),
        text(ctx, "y"),
        text(ctx, "rotation"),
        unit,
        text(ctx, "as").equals("pose"),
        stands);
  }

  /** Number, dx, dy (mm), rotation (degrees), fault; empty when not measured or none. */
  private static String stands(Entry e) {
    return String.join(
        "\t",
        Long.toString(e.sequence()),
        ShownNumbers.plain(e.dxMm()),
        ShownNumbers.plain(e.dyMm()),
        ShownNumbers.plain(e.dRotationDeg()),
        Typed.fault(e));
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
    List<Entry> news = a.journal().since(from);
    long last = news.isEmpty() ? from : news.get(news.size() - 1).sequence();
    String lines =
        news.stream()
            .filter(MeasurePages::onList)
            .map(
                e ->
                    String.join(
                        "\t",
                        Long.toString(e.sequence()),
                        e.placement(),
                        ShownNumbers.plain(e.dxMm()),
                        ShownNumbers.plain(e.dyMm()),
                        ShownNumbers.plain(e.dRotationDeg()),
                        e.kind() == Entry.Kind.PLANNED ? "planned" : "entered",
                        Typed.fault(e)))
            .collect(Collectors.joining("\n"));
    ctx.contentType("text/plain; charset=utf-8").result(last + "\n" + lines);
  }

  private static boolean onList(Entry e) {
    return switch (e.kind()) {
      case MEASURED, CLEARED, LEFT_OUT, PLANNED -> true;
      case TAKEN_IN -> false;
    };
  }

  /** Rows of placements that came onto the list while a page was open. */
  private void rows(Context ctx) {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    List<String> keys = ctx.queryParams("key");
    bench
        .pages()
        .piece(
            ctx,
            "measure-rows",
            MeasureView.rows(a, job.job()).stream().filter(r -> keys.contains(r.key())).toList());
  }

  /** A placement and what lies around it, as a scope shows it. */
  private void near(Context ctx) {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    String key = ctx.queryParam("placement");
    NearView view =
        NearView.of(job.job(), key == null ? "" : key, scope(ctx))
            .orElseThrow(() -> Refusal.notThere("There is no such placement in this job."));
    bench.pages().piece(ctx, "near", view);
  }

  private static NearView.Scope scope(Context ctx) {
    String turn = ctx.queryParam("turn");
    int degrees = turn != null && turn.matches("90|180|270") ? Integer.parseInt(turn) : 0;
    return new NearView.Scope(degrees, "yes".equals(ctx.queryParam("mirrored")));
  }

  /** More placements at the end of the walk: one by name, or some that tell most. */
  private void plan(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    List<String> panels = a.panels(job);
    if (!text(ctx, "more").isEmpty()) {
      some(a, job.job(), panels);
      ctx.redirect("/articles/" + a.id(), HttpStatus.SEE_OTHER);
      return;
    }
    String said = text(ctx, "placement");
    boolean one = said.contains("/") && panels.contains(Places.panel(said));
    String name = one ? Places.onPanel(said) : said;
    Places.Place p =
        Places.of(job.job())
            .named(name)
            .orElseThrow(
                () ->
                    Refusal.bad(
                        "There is no placement '"
                            + said
                            + "'; write its name, or column/row/name on a panel of several"
                            + " boards."));
    List<String> on = one ? List.of(Places.panel(said)) : panels;
    add(a, on.stream().map(n -> p.on(n).key()).toList());
    ctx.redirect("/articles/" + a.id() + "#row-" + p.on(on.get(0)).key(), HttpStatus.SEE_OTHER);
  }

  /** Puts keys at the end of the walk that are not on it. */
  private static void add(BenchArticle a, List<String> keys) throws IOException {
    List<String> have = a.planned();
    List<Entry> added = new ArrayList<>();
    for (String key : keys) {
      if (!have.contains(key)) {
        String place = Integer.toString(have.size() + added.size() + 1);
        added.add(Entry.of(Entry.Kind.PLANNED, key, place));
      }
    }
    a.journal().append(added);
  }

  /** Ten more placements, on every panel of the article. */
  private static void some(BenchArticle a, Job job, List<String> panels) throws IOException {
    Set<String> have = new LinkedHashSet<>();
    a.planned().forEach(k -> have.add(Places.onPanel(k)));
    MeasuringPlan plan =
        MeasuringPlan.of(job, MeasuringPlanOptions.withDefaults().withCount(have.size() + MORE));
    a.measured().keySet().forEach(k -> have.add(Places.onPanel(k)));
    List<String> more =
        plan.lines().stream()
            .map(l -> l.column() + "/" + l.row() + "/" + l.ref())
            .filter(k -> !have.contains(k))
            .limit(MORE)
            .toList();
    add(a, panels.stream().flatMap(p -> more.stream().map(k -> p + "/" + k)).toList());
  }

  private void fit(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    bench.pages().piece(ctx, "fit", bench.analyses().growing(a, job));
  }
}
