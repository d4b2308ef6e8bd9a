package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.padtrue.load.PlacementFile;
import org.padtrue.load.PlacementOptions;
import org.padtrue.load.PlacementRow;
import org.padtrue.load.Understood;
import org.padtrue.problem.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What a placement file was understood to say, before anyone trusts it. */
@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    description = "Shows how a placement file was understood: columns, unit, sides, extents, rows.",
    footer = {"", "Example:", "  padtrue inspect placements.csv"})
final class InspectCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "FILE", description = "Placement file.")
  @SuppressWarnings("NullAway.Init")
  private Path file;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PlacementFile f = PlacementFile.read(file, PlacementOptions.withDefaults());
    print(f.understood(), out);
    if (!f.problems().isEmpty()) {
      throw new InputException(f.problems());
    }
    return Main.DONE;
  }

  private static void print(Understood u, PrintWriter out) {
    out.println("File        " + u.file());
    out.println(
        "Text        "
            + u.encoding()
            + ", "
            + u.delimiter()
            + ", decimal "
            + (u.decimal() == ',' ? "comma" : "point")
            + (u.headerLine() > 0 ? ", header in line " + u.headerLine() : ", no header"));
    StringBuilder columns = new StringBuilder();
    u.columns()
        .forEach(
            (ours, theirs) ->
                columns
                    .append(columns.length() == 0 ? "" : ", ")
                    .append(ours)
                    .append(" <- ")
                    .append(theirs));
    out.println("Columns     " + columns);
    if (!u.unusedColumns().isEmpty()) {
      out.println("Not used    " + String.join(", ", u.unusedColumns()));
    }
    out.println("Part type   from " + u.partFrom());
    out.println("Unit        " + u.unit().label() + ", " + u.unitSource());
    out.println("Side        " + u.sides());
    out.println("Axes        " + u.axes());
    out.println(
        "Rows        "
            + u.rows()
            + " (top "
            + u.top()
            + ", bottom "
            + u.bottom()
            + ", not fitted "
            + u.notFitted()
            + ", parked "
            + u.parked()
            + (u.boards() > 1 ? ", every ref on " + u.boards() + " boards" : "")
            + ")");
    Understood.Extents e = u.extents();
    out.println(
        String.format(
            Locale.ROOT,
            "Extents     x %.3f to %.3f mm, y %.3f to %.3f mm",
            e.minXMm(),
            e.maxXMm(),
            e.minYMm(),
            e.maxYMm()));
    out.println("First rows");
    for (PlacementRow r : u.sample()) {
      out.println("  " + row(r));
    }
    u.notes().forEach(n -> out.println("Note        " + n));
  }

  private static String row(PlacementRow r) {
    return String.format(
        Locale.ROOT,
        "%-8s %-28s x %10.4f  y %10.4f  rotation %8.2f  %s",
        r.ref(),
        r.part(),
        r.filePose().xMm(),
        r.filePose().yMm(),
        r.filePose().rotationDeg(),
        r.side() == null ? "" : r.side().name().toLowerCase(Locale.ROOT));
  }
}
