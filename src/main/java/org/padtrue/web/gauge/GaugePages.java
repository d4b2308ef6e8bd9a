package org.padtrue.web.gauge;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.gauge.GaugeForm;
import org.padtrue.gauge.GaugePlacements;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.load.article.GaugeRepeats;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.GaugeReport;
import org.padtrue.report.json.GaugeJson;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** Gauge studies: begun, typed session by session, judged, printed as a blank form. */
public final class GaugePages {
  private static final int MOST_OPERATORS = 10;
  private static final int MOST_TRIALS = 10;
  private static final int MOST_PLACEMENTS = 100;
  private static final double MOST_MM = 100;

  private final Bench bench;

  public GaugePages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/jobs/{job}/gauge", this::list);
    routes.post("/jobs/{job}/gauge", this::begin);
    routes.get("/jobs/{job}/gauge/{study}", this::study);
    routes.get("/jobs/{job}/gauge/{study}/form", this::form);
    routes.get("/jobs/{job}/gauge/{study}/gauge.json", this::json);
    routes.get("/jobs/{job}/gauge/{study}/readings.csv", this::csv);
    routes.get("/jobs/{job}/gauge/{study}/{session}", this::session);
    routes.post("/jobs/{job}/gauge/{study}/{session}", this::keep);
    routes.get("/jobs/{job}/gauge/{study}/{session}/seen", this::seen);
  }

  private void list(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    bench
        .pages()
        .show(
            ctx,
            "gauge-list",
            "Gauge studies",
            "jobs",
            new GaugeViews(j, job).list(GaugeFolder.all(j.folder())));
  }

  private void begin(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    List<String> operators =
        Arrays.stream(Fields.line(ctx, "operators").split("[,;]"))
            .map(String::strip)
            .filter(s -> !s.isEmpty())
            .toList();
    if (operators.isEmpty() || operators.size() > MOST_OPERATORS) {
      throw Refusal.bad("Write who reads: 1 to " + MOST_OPERATORS + " names, commas between.");
    }
    int trials = number(ctx, "trials", 3, MOST_TRIALS);
    int count = number(ctx, "count", 0, MOST_PLACEMENTS);
    GaugePlacements chosen = GaugePlacements.of(job.job(), count == 0 ? null : count);
    List<String> lines = GaugeForm.lines(chosen.refs(), operators, trials);
    GaugeFolder made = GaugeFolder.make(j.folder(), new GaugeRepeatsForm(lines).rows());
    ctx.redirect("/jobs/" + j.id() + "/gauge/" + made.id(), HttpStatus.SEE_OTHER);
  }

  private static int number(Context ctx, String name, int otherwise, int most) {
    String text = Fields.line(ctx, name);
    if (text.isEmpty()) {
      return otherwise;
    }
    if (!text.matches("\\d{1,4}") || Integer.parseInt(text) < 1 || Integer.parseInt(text) > most) {
      throw Refusal.bad("'" + text + "' is not a whole number from 1 to " + most + ".");
    }
    return Integer.parseInt(text);
  }

  private void study(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    GaugeView view;
    try {
      view = new GaugeViews(j, job).judged(g, g.rows(), evaluated(g, job));
    } catch (InputException e) {
      view =
          new GaugeViews(j, job)
              .open(
                  g,
                  g.rows(),
                  0,
                  JobFolder.sentences(e, j.folder()).stream().map(PageWords::plain).toList());
    }
    bench.pages().show(ctx, "gauge", "Gauge study", "jobs", view);
  }

  private static GaugeRepeats repeats(GaugeFolder g, LoadedJob job) throws IOException {
    return GaugeRepeats.of(TextFile.of("readings", g.csv()), job).orThrow();
  }

  private static @Nullable GaugeStudy evaluated(GaugeFolder g, LoadedJob job) throws IOException {
    return g.rows().stream().noneMatch(GaugeRow::read)
        ? null
        : GaugeReport.study(repeats(g, job), job.job());
  }

  private void session(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    List<GaugeRow> rows = g.rows();
    int session = session(ctx, rows);
    bench
        .pages()
        .show(
            ctx,
            "gauge-session",
            "Session " + session,
            "jobs",
            new GaugeViews(j, j.load()).open(g, rows, session, List.of()));
  }

  private static int session(Context ctx, List<GaugeRow> rows) {
    String text = ctx.pathParam("session");
    if (!text.matches("\\d{1,4}")
        || rows.stream().noneMatch(r -> r.session() == Integer.parseInt(text))) {
      throw Refusal.notThere("There is no such session in this study.");
    }
    return Integer.parseInt(text);
  }

  /** The readings of a session, all of them or none. */
  private void keep(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    List<GaugeRow> rows = g.rows();
    int session = session(ctx, rows);
    LengthUnit unit =
        LengthUnit.parse(Fields.line(ctx, "unit"))
            .orElseThrow(() -> Refusal.bad("The unit should be mm, um or mil."));
    Map<Integer, double[]> readings = new LinkedHashMap<>();
    int last = 0;
    for (int i = 0; i < rows.size(); i++) {
      last = Math.max(last, rows.get(i).session());
      if (rows.get(i).session() == session) {
        readings.put(i, reading(ctx, i, rows.get(i).ref(), unit));
      }
    }
    Map<Integer, String> seen = new LinkedHashMap<>();
    readings.keySet().forEach(i -> seen.put(i, Fields.line(ctx, "seen" + i)));
    List<Integer> clashes = GaugeFolder.keep(g, readings, seen);
    if (!clashes.isEmpty()) {
      readings.entrySet().removeIf(e -> untouched(rows.get(e.getKey()), e, seen));
      clash(ctx, j, g, session, readings, clashes);
      return;
    }
    String at = "/jobs/" + j.id() + "/gauge/" + g.id();
    boolean whole = readings.values().stream().noneMatch(v -> Double.isNaN(v[0]));
    ctx.redirect(whole && session < last ? at + "/" + (session + 1) : at, HttpStatus.SEE_OTHER);
  }

  /** True for a reading that stands in the form as the page showed it. */
  private static boolean untouched(
      GaugeRow row, Map.Entry<Integer, double[]> typed, Map<Integer, String> seen) {
    double[] v = typed.getValue();
    return row.with(v[0], v[1], v[2]).values().equals(seen.get(typed.getKey()));
  }

  /** Both are shown, and nothing is stored, until the person has chosen. */
  private void clash(
      Context ctx,
      JobFolder j,
      GaugeFolder g,
      int session,
      Map<Integer, double[]> typed,
      List<Integer> clashes)
      throws IOException {
    List<GaugeRow> rows = new ArrayList<>(g.rows());
    List<String> said = new ArrayList<>();
    for (int i : clashes) {
      double[] v = typed.getOrDefault(i, new double[] {Double.NaN, Double.NaN, Double.NaN});
      GaugeRow stands = rows.get(i);
      said.add(
          stands.ref()
              + ": another page kept "
              + stands.words()
              + "; you typed "
              + stands.with(v[0], v[1], v[2]).words()
              + ".");
    }
    ctx.status(HttpStatus.CONFLICT);
    bench
        .pages()
        .show(
            ctx,
            "gauge-session",
            "Session " + session,
            "jobs",
            new GaugeViews(j, j.load()).disputed(g, rows, session, said, typed));
  }

  /** The mark of what a session holds, for pages that look at it. */
  private void seen(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    List<GaugeRow> rows = g.rows();
    ctx.contentType("text/plain; charset=utf-8").result(GaugeViews.mark(rows, session(ctx, rows)));
  }

  private static double[] reading(Context ctx, int i, String ref, LengthUnit unit) {
    double dx = length(ctx, "dx" + i, ref, unit);
    double dy = length(ctx, "dy" + i, ref, unit);
    if (Double.isNaN(dx) != Double.isNaN(dy)) {
      throw Refusal.bad(
          "At " + ref + " one of dx and dy is missing; write both. Nothing was kept.");
    }
    String text = Fields.line(ctx, "rotation" + i);
    double turn =
        text.isEmpty()
            ? Double.NaN
            : TypedNumbers.degrees(text)
                .orElseThrow(
                    () -> Refusal.bad("'" + text + "' at " + ref + " is no angle in degrees."));
    if (Math.abs(turn) > 360) {
      throw Refusal.bad("'" + text + "' at " + ref + " is beyond 360 degrees.");
    }
    if (Double.isNaN(dx) && !Double.isNaN(turn)) {
      throw Refusal.bad("At " + ref + " dx and dy are missing; write them. Nothing was kept.");
    }
    return new double[] {dx, dy, turn};
  }

  private static double length(Context ctx, String name, String ref, LengthUnit unit) {
    String text = Fields.line(ctx, name);
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double mm =
        TypedNumbers.mm(text, unit)
            .orElseThrow(
                () ->
                    Refusal.bad(
                        "'" + text + "' at " + ref + " is no length; write digits, like 0.025."));
    if (!(Math.abs(mm) <= MOST_MM)) {
      throw Refusal.bad("'" + text + "' at " + ref + " is beyond " + (int) MOST_MM + " mm.");
    }
    return mm;
  }

  private void form(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    bench
        .pages()
        .show(
            ctx,
            "gauge-form",
            "Gauge study, blank form",
            "jobs",
            new GaugeViews(j, j.load()).blank(g, g.rows()));
  }

  private void csv(Context ctx) throws IOException {
    GaugeFolder g = GaugeFolder.of(bench.job(ctx).folder(), ctx.pathParam("study"));
    Downloads.send(
        ctx, g.id() + ".csv", "text/csv; charset=utf-8", g.csv().getBytes(StandardCharsets.UTF_8));
  }

  private void json(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    GaugeFolder g = GaugeFolder.of(j.folder(), ctx.pathParam("study"));
    GaugeRepeats r = repeats(g, job);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    GaugeJson.write(GaugeReport.study(r, job.job()), r.nominalKnown(), out);
    Downloads.send(ctx, "gauge.json", "application/json; charset=utf-8", out.toByteArray());
  }
}
