package org.padtrue.web.inspect;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.compare.FileComparison;
import org.padtrue.load.placement.Bills;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.words.ComparisonWords;
import org.padtrue.report.words.UnderstoodWords;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.Workspace;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Uploads;

/** Files looked at before anybody trusts them: one, or two of the same board. */
public final class InspectPages {
  /** Where the label of a line ends. */
  private static final int LABEL = 12;

  private final Bench bench;

  public InspectPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/inspect", ctx -> show(ctx, InspectView.EMPTY));
    routes.post("/inspect", this::inspect);
  }

  private void show(Context ctx, InspectView view) {
    bench.pages().show(ctx, "inspect", "Look at files", "jobs", view);
  }

  private void inspect(Context ctx) throws IOException {
    String step = Fields.line(ctx, "step");
    Path aside = bench.workspace().incoming();
    List<InspectView.Shown> files = new ArrayList<>();
    List<InspectView.Line> differences = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    try {
      Path first = sent(Uploads.of(ctx, "files"), aside.resolve("first"));
      Path bill = optional(ctx, "bill", aside.resolve("bill"));
      Path second = optional(ctx, "second", aside.resolve("second"));
      PlacementFile a = read(first, bill, step, files);
      if (second != null) {
        PlacementFile b = read(second, null, step, files);
        differences.addAll(lines(ComparisonWords.lines(FileComparison.of(a, b))));
      }
    } catch (InputException e) {
      e.problems().forEach(p -> problems.add(plain(p.sentence())));
    } finally {
      Workspace.drop(aside);
    }
    show(ctx, new InspectView(step, problems, files, differences));
  }

  /** The one file of a field, in a folder of its own: both may have one name. */
  private static Path sent(List<UploadedFile> files, Path folder) throws IOException {
    Files.createDirectories(folder);
    return folder.resolve(Uploads.write(files.subList(0, 1), folder).get(0));
  }

  private static @Nullable Path optional(Context ctx, String field, Path folder)
      throws IOException {
    return ctx.uploadedFiles(field).stream().allMatch(f -> f.filename().isBlank())
        ? null
        : sent(Uploads.of(ctx, field), folder);
  }

  private static PlacementFile read(
      Path path, @Nullable Path bill, String step, List<InspectView.Shown> shown) {
    String name = String.valueOf(path.getFileName());
    if (name.toLowerCase(Locale.ROOT).endsWith(".json")) {
      throw new InputException(
          Problem.of(
              name,
              "this is a job or a parts file, not a list of placements",
              "send the lists that are to be compared; a job is looked at as a new job"));
    }
    PlacementOptions options =
        PlacementOptions.withDefaults().withoutTypes().with(bill == null ? null : Bills.read(bill));
    PlacementFile f = PlacementFile.read(path, options, step.isEmpty() ? null : step);
    shown.add(new InspectView.Shown(name, lines(UnderstoodWords.withTypes(f))));
    if (!f.problems().isEmpty()) {
      throw new InputException(f.problems());
    }
    return f;
  }

  /** Without what only a job file would say so. */
  private static String plain(String sentence) {
    return PageWords.plain(sentence)
        .replaceAll("\"(\\w+)\": \\{([^{}]*)\\}", "$1 ($2)")
        .replaceAll("\"(\\w+)\": \"(\\w+)\"", "$1 = $2")
        .replace("bottomX = asSeenFromBottom", "bottom x = as seen from below");
  }

  /** Lines of the console as labels with what they say. */
  private static List<InspectView.Line> lines(List<String> console) {
    List<InspectView.Line> all = new ArrayList<>();
    String label = "";
    List<String> rows = new ArrayList<>();
    for (String line : console) {
      String head = line.length() < LABEL ? line : line.substring(0, LABEL);
      boolean goesOn = line.startsWith("  ") || head.isBlank();
      if (!goesOn) {
        if (!label.isEmpty()) {
          all.add(new InspectView.Line(label, rows));
        }
        label = head.strip();
        rows = new ArrayList<>();
      }
      String text = goesOn ? line.strip() : line.length() < LABEL ? "" : line.substring(LABEL);
      if (!text.isBlank()) {
        rows.add(plain(text.strip()));
      }
    }
    if (!label.isEmpty()) {
      all.add(new InspectView.Line(label, rows));
    }
    return all;
  }
}
