package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Board;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.problem.InputException;
import org.padtrue.problem.WithProblems;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.plot.PanelDrawing;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.words.UnderstoodWords;

/** Says how a job was understood, and draws its panel. */
final class JobInspection {
  private static final int BOARDS_SHOWN = 12;

  private final Path file;
  private final @Nullable Path folder;
  private final Set<ChartFormat> formats;
  private final PrintWriter out;

  JobInspection(Path file, @Nullable Path folder, Set<ChartFormat> formats, PrintWriter out) {
    this.file = file;
    this.folder = folder;
    this.formats = formats;
    this.out = out;
  }

  void run() {
    WithProblems<LoadedJob> loaded = JobLoader.loadWithFile(file);
    LoadedJob job = loaded.value();
    UnderstoodWords.of(job.placements()).forEach(out::println);
    out.println();
    print(job.job());
    if (!loaded.problems().isEmpty()) {
      throw new InputException(loaded.problems());
    }
    if (folder != null && !formats.isEmpty() && !job.job().placements().isEmpty()) {
      draw(job, folder);
    }
  }

  private void print(Job j) {
    out.println("Job         " + j.name());
    out.println(
        "Placed      "
            + j.placements().size()
            + " on the "
            + j.side().name().toLowerCase(Locale.ROOT)
            + " of each board, "
            + j.unplaced().size()
            + " rows not placed");
    List<Board> boards = j.array().boards();
    out.println(
        "Panel       "
            + j.array().columns()
            + " x "
            + j.array().rows()
            + " boards"
            + (j.array().skipped().isEmpty() ? "" : ", " + j.array().skipped().size() + " skipped")
            + "; panel frame: x right, y up, seen from the side that is placed");
    for (Board b : boards.subList(0, Math.min(BOARDS_SHOWN, boards.size()))) {
      out.println(
          String.format(
              Locale.ROOT,
              "Board %-5s origin x %10.4f  y %10.4f mm%s",
              b.index(),
              b.origin().xMm(),
              b.origin().yMm(),
              b.origin().rotationDeg() == 0 ? "" : ", turned by 180 degrees"));
    }
    if (boards.size() > BOARDS_SHOWN) {
      out.println("            and " + (boards.size() - BOARDS_SHOWN) + " more boards");
    }
    for (Fiducial f : j.fiducials()) {
      out.println(
          String.format(
              Locale.ROOT,
              "Fiducial    %-6s x %10.4f  y %10.4f mm in the frame of the %s",
              f.name(),
              f.xMm(),
              f.yMm(),
              f.scope() == Fiducial.Scope.PANEL ? "panel" : "board, on every board"));
    }
    if (j.fiducials().isEmpty()) {
      out.println("Fiducial    none");
    }
    TreeSet<String> all = new TreeSet<>();
    TreeSet<String> judged = new TreeSet<>();
    for (Placement p : j.placements()) {
      all.add(p.part());
      if (!j.partType(p.part()).notJudged()) {
        judged.add(p.part());
      }
    }
    out.println(
        "Part types  "
            + all.size()
            + ", of which "
            + judged.size()
            + " are judged by geometry or"
            + " tolerance");
    j.notes().forEach(n -> out.println("Note        " + n));
  }

  private void draw(LoadedJob job, Path to) {
    DrawnChart p = PanelDrawing.render(job, formats);
    try (OutputFolder all = new OutputFolder(to)) {
      all.write("", List.of(p));
      all.commit().forEach(f -> out.println("Drawn       " + f));
    }
    out.println("            " + p.caption());
  }
}
