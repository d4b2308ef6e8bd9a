package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.compare.FileComparison;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.part.PartNames;
import org.padtrue.load.placement.Bills;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.placement.Understood;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardMark;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.words.ComparisonWords;
import org.padtrue.report.words.PartNameWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What a placement file was understood to say, before anyone trusts it. */
@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    description = {
      "Shows how a placement file was understood: columns, unit, sides, extents, rows, and "
          + "what the names of part types mean in the starter library.",
      "With a job: its panel, fiducials and part types too, and with --out a picture of it.",
      "With a second file of the same board: what differs, and which setting brings them "
          + "together."
    },
    footer = {
      "",
      "Example:",
      "  padtrue inspect placements.csv",
      "  padtrue inspect job.json --out understood",
      "  padtrue inspect placements.csv from-the-layout.csv"
    })
final class InspectCommand implements Callable<Integer> {
  private static final int NAMES_SHOWN = 8;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "FILE", description = "Placement file, or a job.")
  @SuppressWarnings("NullAway.Init")
  private Path file;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "FILE2",
      description = "Another placement file of the same board, to compare.")
  private @Nullable Path other;

  @Option(
      names = "--step",
      paramLabel = "NAME",
      description = "Step of an IPC-2581 file of several boards, as \"step\" in a job.")
  private @Nullable String step;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "With a job: draws the panel as understood into DIR, as panel.svg.")
  private @Nullable Path folder;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ChartsOption charts;

  @Option(
      names = "--bom",
      paramLabel = "FILE",
      description = "Bill of materials of the (first) list, as \"bom\" in a job.")
  private @Nullable Path bom;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    charts.refuseWhere(folder == null, "nothing is drawn without --out DIR");
    if (other == null && isJson(file)) {
      new JobInspection(file, folder, charts.formats(), out).run();
      return Main.DONE;
    }
    if (folder != null) {
      throw new InputException(
          Problem.of("", "--out draws the panel of a job", "give a job instead of a list"));
    }
    PlacementFile f = shown(file, bom, out);
    if (other != null) {
      out.println();
      PlacementFile second = shown(other, null, out);
      FileComparison found = FileComparison.of(f, second);
      out.println();
      ComparisonWords.lines(found).forEach(out::println);
    }
    return Main.DONE;
  }

  private static boolean isJson(Path path) {
    return path.toString().toLowerCase(Locale.ROOT).endsWith(".json");
  }

  private PlacementFile shown(Path path, @Nullable Path bill, PrintWriter out) {
    if (isJson(path)) {
      throw new InputException(
          Problem.of(
              path.toString(),
              "this is a job or a parts file, not a list of placements",
              "name the lists that are to be compared"));
    }
    PlacementOptions options =
        PlacementOptions.withDefaults().withoutTypes().with(bill == null ? null : Bills.read(bill));
    PlacementFile f = PlacementFile.read(path, options, step);
    print(f, out);
    PartNames names = PartNames.of(f, ChipCodes.UNKNOWN);
    if (!names.entries().isEmpty()) {
      out.println("Part types  " + PartNameWords.summary(names));
      PartNameWords.lines(names, NAMES_SHOWN).forEach(out::println);
    }
    if (!f.problems().isEmpty()) {
      throw new InputException(f.problems());
    }
    return f;
  }

  /** Says how a file was understood. */
  static void print(PlacementFile f, PrintWriter out) {
    f.standard().ifPresentOrElse(d -> print(f, d, out), () -> print(f.understood(), out));
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
    out.println(
        "Part type   "
            + (u.partFrom().isEmpty()
                ? "in no column: name the bill of materials that has them (--bom here, \"bom\" in a"
                    + " job)"
                : "from " + u.partFrom()));
    shared(u, out);
  }

  /** A file of an open standard. */
  private static void print(PlacementFile f, StandardData d, PrintWriter out) {
    out.println("File        " + d.name());
    out.println("Format      " + d.format());
    out.println("Found       " + String.join(", ", d.counts()));
    StandardBox o = d.outline();
    if (o != null) {
      out.println(
          String.format(
              Locale.ROOT, "Outline     %.3f x %.3f mm (one board)", o.length(), o.width()));
    }
    if (!d.boards().isEmpty()) {
      out.println("Panel       " + d.boards().size() + " boards");
    }
    for (StandardMark m : d.marks()) {
      out.println(
          String.format(
              Locale.ROOT,
              "Fiducial    %-6s x %10.4f  y %10.4f  %s, of the %s",
              m.fiducial().name(),
              m.fiducial().xMm(),
              m.fiducial().yMm(),
              m.side().name().toLowerCase(Locale.ROOT),
              m.fiducial().scope().name().toLowerCase(Locale.ROOT)));
    }
    long lands = d.parts().values().stream().filter(p -> !p.lands().isEmpty()).count();
    long bodies = d.parts().values().stream().filter(p -> p.body() != null).count();
    out.println("Geometry    " + bodies + " part types with a body, " + lands + " with lands");
    if (!d.skipped().isEmpty()) {
      out.println("Not used    " + String.join(", ", d.skipped()));
    }
    shared(f.understood(), out);
  }

  private static void shared(Understood u, PrintWriter out) {
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
            + ", no part "
            + u.drawings()
            + (u.boards() > 1 ? ", every ref on " + u.boards() + " boards" : "")
            + ")");
    if (u.rows() == 0) {
      u.notes().forEach(n -> out.println("Note        " + n));
      return;
    }
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
