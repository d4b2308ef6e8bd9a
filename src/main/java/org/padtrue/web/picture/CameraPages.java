package org.padtrue.web.picture;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.json.CameraFile;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.Workspace;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;
import org.padtrue.web.server.Uploads;

/** Cameras: sent as files, or found from pictures of a grid. */
public final class CameraPages {
  private static final Pattern GRID = Pattern.compile("(\\d{1,3})\\s*[xX*\u00d7]\\s*(\\d{1,3})");
  private static final int LEAST_OF_GRID = 3;
  private static final int MOST_PICTURES = 60;
  private static final double MOST_PITCH_MM = 1000;

  private final Bench bench;
  private final PictureWork work;
  private final Cameras cameras;

  public CameraPages(Bench bench, PictureWork work) {
    this.bench = bench;
    this.work = work;
    cameras = PicturePages.cameras(bench);
  }

  public void routes(RoutesConfig routes) {
    routes.get("/cameras", this::page);
    routes.post("/cameras", this::send);
    routes.post("/cameras/calibrate", this::calibrate);
    routes.get("/cameras/state", this::state);
    routes.get("/cameras/{camera}.json", this::file);
    routes.post("/cameras/{camera}/delete", this::delete);
  }

  private void page(Context ctx) throws IOException {
    List<CameraView.Line> lines = new ArrayList<>();
    for (String n : cameras.names()) {
      lines.add(new CameraView.Line(n, holds(cameras.file(n))));
    }
    PictureWork.Grid g = work.grid();
    bench
        .pages()
        .show(
            ctx,
            "cameras",
            "Cameras",
            "jobs",
            new CameraView(lines, g.running(), g.problems(), g.found()));
  }

  private static String holds(Path file) {
    try {
      CameraFile c = CameraFile.read(file);
      return c.lens() == null ? "bend of a scanner or camera" : "lens";
    } catch (InputException e) {
      return "cannot be read";
    }
  }

  private void send(Context ctx) throws IOException {
    Path aside = bench.workspace().incoming();
    try {
      Files.createDirectories(aside);
      for (String n : Uploads.write(Uploads.of(ctx, "files"), aside)) {
        cameras.keep(n.replaceFirst("(?i)\\.json$", ""), CameraFile.read(aside.resolve(n)));
      }
    } finally {
      Workspace.drop(aside);
    }
    ctx.redirect("/cameras", HttpStatus.SEE_OTHER);
  }

  private void calibrate(Context ctx) throws IOException {
    String name = Fields.line(ctx, "name");
    String grid = Fields.line(ctx, "grid");
    Matcher m = GRID.matcher(grid);
    if (!m.matches()
        || Integer.parseInt(m.group(1)) < LEAST_OF_GRID
        || Integer.parseInt(m.group(2)) < LEAST_OF_GRID) {
      throw Refusal.bad(
          "The grid is '" + grid + "'; write columns x rows of 3 and more, such as 9x6.");
    }
    String text = Fields.line(ctx, "pitch");
    double pitch = TypedNumbers.mm(text, LengthUnit.MM).orElse(Double.NaN);
    if (!(pitch > 0 && pitch <= MOST_PITCH_MM)) {
      throw Refusal.bad("From corner to corner is '" + text + "'; write a length, like 5 mm.");
    }
    if (work.grid().running()) {
      throw Refusal.bad("Pictures of a grid are being worked on; wait for that.");
    }
    Path aside = bench.workspace().incoming();
    Files.createDirectories(aside);
    List<Path> files;
    try {
      files =
          Uploads.write(Uploads.of(ctx, "files", MOST_PICTURES), aside).stream()
              .map(aside::resolve)
              .toList();
    } catch (IOException | RuntimeException e) {
      Workspace.drop(aside);
      throw e;
    }
    work.calibrate(
        files,
        new PictureWork.Pattern(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)), pitch),
        camera -> cameras.keep(name.isEmpty() ? "camera" : name, camera),
        () -> Workspace.drop(aside));
    ctx.redirect("/cameras", HttpStatus.SEE_OTHER);
  }

  private void state(Context ctx) {
    PictureWork.Grid g = work.grid();
    ctx.contentType("text/plain; charset=utf-8")
        .result((g.running() ? "running" : "done") + "\t0\t0\t" + g.stage());
  }

  private void file(Context ctx) throws IOException {
    String name = ctx.pathParam("camera");
    Downloads.send(
        ctx,
        name + ".json",
        "application/json; charset=utf-8",
        Files.readAllBytes(cameras.file(name)));
  }

  private void delete(Context ctx) throws IOException {
    cameras.delete(ctx.pathParam("camera"));
    ctx.redirect("/cameras", HttpStatus.SEE_OTHER);
  }
}
