package org.padtrue.web.picture;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.json.TaughtFolder;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.Entry;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;
import org.padtrue.web.server.Uploads;

/** Measuring in pictures: send one, look at every pose, accept, move or reject it. */
public final class PicturePages {
  /**
   * A person who drags an outline sets it to about so many pixels: common practice, from memory.
   */
  private static final double BY_HAND_PX = 0.5;

  private static final double BY_HAND_DEG = 0.5;

  private static final int MOST = 20;
  private static final int MOST_CLOSE_UPS = 300;

  private final Bench bench;
  private final PictureWork work;

  public PicturePages(Bench bench, PictureWork work) {
    this.bench = bench;
    this.work = work;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/pictures", this::page);
    routes.post("/articles/{article}/pictures", this::send);
    routes.get("/articles/{article}/pictures/state", this::state);
    routes.get("/articles/{article}/pictures/{number}.jpg", this::photo);
    routes.post("/articles/{article}/pictures/accept", this::acceptAll);
    routes.post("/articles/{article}/pictures/pose", this::pose);
    routes.post("/articles/{article}/pictures/device", this::device);
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    Path folder = PictureWork.folder(a);
    PictureReadings r = PictureReadings.in(folder) ? PictureReadings.read(folder) : null;
    bench
        .pages()
        .show(
            ctx,
            "pictures",
            a.about().name(),
            "jobs",
            PicturesView.of(
                a,
                job.job(),
                work.of(a),
                r,
                new PicturesView.Kept(
                    cameras(bench).names(),
                    taught(looks(a)),
                    Files.exists(folder.resolve(PictureWork.DEVICE)))));
  }

  /** Cameras of the workspace. */
  static Cameras cameras(Bench bench) {
    return new Cameras(bench.workspace().folder("cameras"));
  }

  /** Where the taught looks of an article's job are kept. */
  private Path looks(BenchArticle a) {
    return bench.workspace().job(a.about().job()).folder().resolve("taught");
  }

  private static List<String> taught(Path looks) {
    try {
      return TaughtFolder.holdsSome(looks)
          ? TaughtFolder.read(looks).stream().map(TaughtLook::part).sorted().toList()
          : List.of();
    } catch (InputException e) {
      return List.of();
    }
  }

  /** Keeps what turned pictures told about the device, for other pictures. */
  private void device(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    Path file = PictureWork.folder(a).resolve(PictureWork.DEVICE);
    if (!Files.exists(file)) {
      throw Refusal.bad(
          "These pictures told nothing about the device; it takes pictures of one panel turned by"
              + " 90 or 180 degrees.");
    }
    String name = Fields.line(ctx, "name");
    cameras(bench).keep(name.isEmpty() ? "scanner" : name, CameraFile.read(file));
    ctx.redirect("/cameras", HttpStatus.SEE_OTHER);
  }

  private void send(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    if (work.of(a).running()) {
      throw Refusal.bad("The pictures of this article are being measured; wait for that.");
    }
    Path looks = looks(a);
    DetectAsked asked = DetectAsked.of(ctx, cameras(bench), looks);
    List<UploadedFile> files = Uploads.of(ctx, "files", asked.closeUps() ? MOST_CLOSE_UPS : MOST);
    List<String> names = Uploads.write(files, PictureWork.folder(a));
    work.begin(a, job.job(), names, asked, looks);
    ctx.redirect("/articles/" + a.id() + "/pictures", HttpStatus.SEE_OTHER);
  }

  private void state(Context ctx) {
    PictureWork.Progress p = work.of(bench.article(ctx));
    ctx.contentType("text/plain; charset=utf-8")
        .result(
            String.join(
                "\t",
                p.running() ? "running" : "done",
                Integer.toString(p.done()),
                Integer.toString(p.all()),
                p.stage()));
  }

  private void photo(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    int n =
        (int)
            TypedNumbers.whole(ctx.pathParam("number"))
                .orElseThrow(() -> Refusal.notThere("There is no such picture."));
    Path file = PictureWork.shown(PictureWork.folder(a), n - 1);
    if (!Files.exists(file)) {
      throw Refusal.notThere("There is no such picture.");
    }
    ctx.contentType("image/jpeg").result(Files.readAllBytes(file));
    ctx.header("Cache-Control", "private, max-age=60");
  }

  private PictureReadings readings(BenchArticle a) throws IOException {
    Path folder = PictureWork.folder(a);
    if (!PictureReadings.in(folder)) {
      throw Refusal.bad("No picture of this article has been measured yet.");
    }
    return PictureReadings.read(folder);
  }

  /** Takes everything found that nobody has decided about. */
  private void acceptAll(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    PictureReadings r = readings(a);
    Map<String, PicturesView.Verdict> said = PicturesView.verdicts(a);
    boolean doubtful = Fields.line(ctx, "doubtful").equals("yes");
    List<Entry> entries = new ArrayList<>();
    for (PictureReading q : r.readings()) {
      boolean taken =
          q.status().equals(PictureReading.FOUND)
              || doubtful && q.status().equals(PictureReading.DOUBTFUL) && q.measured();
      if (taken && !said.containsKey(q.key())) {
        entries.add(accepted(q, r.shots().get(q.shot()).file()));
      }
    }
    keep(a, r, entries);
    ctx.redirect("/articles/" + a.id() + "/pictures", HttpStatus.SEE_OTHER);
  }

  private static void keep(BenchArticle a, PictureReadings r, List<Entry> entries)
      throws IOException {
    a.remark(r.remarks());
    a.journal().append(entries);
  }

  private static Entry accepted(PictureReading q, String file) {
    return Entry.measured(
        q.key(),
        q.dxMm(),
        q.dyMm(),
        q.dRotationDeg(),
        q.uMm(),
        q.uRotationDeg(),
        PicturesView.ACCEPTED + file);
  }

  /** One pose: accepted as it is, moved by hand, or rejected. */
  private void pose(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    PictureReadings r = readings(a);
    String key = String.valueOf(ctx.formParam("placement"));
    PictureReading q =
        r.readings().stream()
            .filter(x -> x.key().equals(key))
            .findFirst()
            .orElseThrow(() -> Refusal.bad("There is no such placement in these pictures."));
    String what = String.valueOf(ctx.formParam("what"));
    Entry e =
        switch (what) {
          case "accept" -> whole(q, r);
          case "reject" -> Entry.of(Entry.Kind.CLEARED, key, PicturesView.REJECTED);
          case "move" -> moved(ctx, q, r);
          default -> throw Refusal.bad("'" + what + "' is not accept, reject or move.");
        };
    keep(a, r, List.of(e));
    ctx.contentType("text/plain; charset=utf-8").result("saved");
  }

  private static Entry whole(PictureReading q, PictureReadings r) {
    if (!q.measured()) {
      throw Refusal.bad("Nothing was measured of it; drag the outline to where it sits instead.");
    }
    return accepted(q, r.shots().get(q.shot()).file());
  }

  private static Entry moved(Context ctx, PictureReading q, PictureReadings r) {
    if (q.shot() < 0 || !Double.isFinite(q.xPx())) {
      throw Refusal.bad("It lies outside the picture.");
    }
    Shot s = r.shots().get(q.shot());
    double[] step = s.toPanel(number(ctx, "x"), number(ctx, "y"));
    double turn = number(ctx, "turn");
    double u = Math.hypot(finite(q.uMm()), BY_HAND_PX / s.pxPerMm());
    return Entry.measured(
        q.key(),
        finite(q.dxMm()) + step[0],
        finite(q.dyMm()) + step[1],
        finite(q.dRotationDeg()) + turn,
        u,
        Math.hypot(finite(q.uRotationDeg()), BY_HAND_DEG),
        PicturesView.MOVED + s.file());
  }

  private static double finite(double v) {
    return Double.isFinite(v) ? v : 0;
  }

  private static double number(Context ctx, String name) {
    String s = ctx.formParam(name);
    if (s == null || !s.matches("-?\\d{1,6}(\\.\\d{1,12})?")) {
      throw Refusal.bad("A drag gives numbers.");
    }
    return Double.parseDouble(s);
  }
}
