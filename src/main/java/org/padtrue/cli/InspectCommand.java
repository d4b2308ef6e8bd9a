package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.compare.FileComparison;
import org.padtrue.load.placement.Bills;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.words.ComparisonWords;
import org.padtrue.report.words.UnderstoodWords;
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
    UnderstoodWords.withTypes(f).forEach(out::println);
    if (!f.problems().isEmpty()) {
      throw new InputException(f.problems());
    }
    return f;
  }
}
