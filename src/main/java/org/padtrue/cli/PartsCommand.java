package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.names.NameMatch;
import org.padtrue.load.part.PartNames;
import org.padtrue.load.part.PartsText;
import org.padtrue.load.placement.Bills;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.words.PartNameWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** A parts file for a placement list, filled in from the starter library as far as names say. */
@Command(
    name = "parts",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a parts file for the part types of a placement list.",
      "Names that state a land pattern (IPC-7351, JEDEC outlines, sizes) take it from the "
          + "starter library; what you have to confirm or fill in is marked with \"complete\" "
          + "and judges nothing until you remove that mark."
    },
    footer = {
      "",
      "Example:",
      "  padtrue parts placements.csv --out parts.json",
      "  padtrue parts placements.csv --bom bom.csv --chip-codes inch --out parts.json"
    })
final class PartsCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "FILE", description = "Placement list, or a job.")
  @SuppressWarnings("NullAway.Init")
  private Path file;

  @Option(names = "--out", paramLabel = "FILE", description = "Parts file to write.")
  private @Nullable Path out;

  @Option(names = "--force", description = "Write over a file that is there already.")
  private boolean force;

  @Option(
      names = "--bom",
      paramLabel = "FILE",
      description = "Bill of materials of the list, as \"bom\" in a job.")
  private @Nullable Path bom;

  @Option(
      names = "--step",
      paramLabel = "NAME",
      description = "Step of an IPC-2581 file of several boards, as \"step\" in a job.")
  private @Nullable String step;

  @Option(
      names = "--chip-codes",
      paramLabel = "UNIT",
      description = "inch or metric: what codes such as 0603 are where the name does not say.")
  private @Nullable String codes;

  @Override
  public Integer call() {
    PrintWriter to = spec.commandLine().getOut();
    Path target = out;
    if (target != null && Files.exists(target) && !force) {
      throw new InputException(
          Problem.of(
              target.toString(),
              "the file is there already, and what you filled in would be lost",
              "name another, or add --force"));
    }
    PartNames names = names();
    to.println("File        " + file);
    to.println("Part types  " + PartNameWords.summary(names));
    PartNameWords.lines(names, Integer.MAX_VALUE).forEach(to::println);
    if (target != null) {
      write(target, PartsText.of(names));
      long open =
          names.entries().size()
              - names.at(NameMatch.Level.SAME_NAME, NameMatch.Level.STANDARD).size();
      to.println(
          "Written     "
              + target
              + (open > 0
                  ? ": "
                      + open
                      + " part types are marked \"complete\" and judge nothing until you"
                      + " remove the mark"
                  : ""));
    }
    if (!names.at(NameMatch.Level.TWO_WAYS).isEmpty()) {
      to.println(
          "Say         whether chip codes are inch or metric: --chip-codes inch (0603 is 1.6 x 0.8"
              + " mm) or --chip-codes metric (0603 is 0.6 x 0.3 mm)");
    }
    return Main.DONE;
  }

  private PartNames names() {
    ChipCodes unit = chipCodes();
    if (file.toString().toLowerCase(Locale.ROOT).endsWith(".json")) {
      return PartNames.of(JobLoader.load(file).orThrow(), unit);
    }
    PlacementFile f =
        PlacementFile.read(
            file, PlacementOptions.withDefaults().with(bom == null ? null : Bills.read(bom)), step);
    if (!f.problems().isEmpty()) {
      throw new InputException(f.problems());
    }
    return PartNames.of(f, unit);
  }

  private ChipCodes chipCodes() {
    if (codes == null) {
      return ChipCodes.UNKNOWN;
    }
    return switch (codes.toLowerCase(Locale.ROOT)) {
      case "inch" -> ChipCodes.INCH;
      case "metric" -> ChipCodes.METRIC;
      default ->
          throw new InputException(
              Problem.of("", "--chip-codes is '" + codes + "'", "use inch or metric"));
    };
  }

  private static void write(Path target, String text) {
    Path folder = target.toAbsolutePath().getParent();
    try (OutputFolder all = new OutputFolder(folder == null ? Path.of("") : folder)) {
      all.write(
          String.valueOf(target.getFileName()),
          s -> s.write(text.getBytes(StandardCharsets.UTF_8)));
      all.commit();
    }
  }
}
