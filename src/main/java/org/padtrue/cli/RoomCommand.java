package org.padtrue.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.RoomAnswer;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.JsonOnlyOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.ReportFolderOption;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.report.words.RoomWords;
import org.padtrue.room.RoomOptions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which small moves part neighbours that touch, or may. */
@Command(
    name = "room",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Says which small moves part neighbours that touch, or may: the smallest that leave every"
          + " pair its gap and every placement on its lands. Writes room.json and room.html into a"
          + " folder.",
      "Without ANALYSIS.json: as drawn, before anything was placed. With it: as expected on the"
          + " next panel with the trims entered, scatter included."
    },
    footer = {
      "",
      "Moves are values to ADD to x and y in the placement list, in the axes of an unturned board;",
      "all boards of a panel move alike unless --each-board is given. 'apply --room' puts them in.",
      "",
      "Examples:",
      "  padtrue room job.json",
      "  padtrue room job.json report/analysis.json --gap 0.15 --probability 0.999",
      "  padtrue room job.json report/analysis.json --fix J1,CONN8 --max 0.2 --out report"
    })
final class RoomCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "ANALYSIS.json",
      description = "The analysis.json that 'analyse' wrote for this job.")
  private @Nullable Path analysisFile;

  @Option(
      names = "--gap",
      paramLabel = "MM",
      description = "Gap that every pair is to keep, mm. Default: ${DEFAULT-VALUE}.",
      defaultValue = "" + RoomOptions.GAP_MM)
  private double gap;

  @Option(
      names = "--probability",
      paramLabel = "P",
      description =
          "With an analysis: probability with which gaps and land limits are kept. Default:"
              + " ${DEFAULT-VALUE}.",
      defaultValue = "" + RoomOptions.PROBABILITY)
  private double probability;

  @Option(
      names = "--fix",
      paramLabel = "REF",
      split = ",",
      description = "These stay: refs or part types.")
  private List<String> fix = new ArrayList<>();

  @Option(
      names = "--turn",
      paramLabel = "REF",
      split = ",",
      description = "These may be turned as well: refs or part types.")
  private List<String> turn = new ArrayList<>();

  @Option(
      names = "--max",
      paramLabel = "MM",
      description = "Longest move, mm. Default: ${DEFAULT-VALUE}.",
      defaultValue = "" + RoomOptions.MAX_MM)
  private double max;

  @Option(
      names = "--each-board",
      description = "Boards need not move alike (placement lists of the whole panel only).")
  private boolean eachBoard;

  @Mixin private final ReportFolderOption out = new ReportFolderOption();

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private JsonOnlyOption json;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    check();
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    progress.step("reading " + jobFile, 0, 1);
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    RoomAnswer.Asked asked =
        new RoomAnswer.Asked(gap, probability, max, unique(fix), unique(turn), eachBoard);
    progress.step("looking for room", 0, 1);
    RoomAnswer answer =
        RoomAnswer.of(
            job, asked, analysisFile == null ? null : RoomAnswer.Analysed.read(analysisFile));
    if (json.given) {
      Path file = answer.writeJson(out.folder);
      if (!quiet.given) {
        spec.commandLine().getOut().println(file);
      }
      return Main.DONE;
    }
    List<Path> files = answer.write(out.folder);
    if (!quiet.given) {
      RoomWords.lines(answer.result(), answer.options(), answer.head())
          .forEach(spec.commandLine().getOut()::println);
      spec.commandLine().getOut().println("REPORT     " + files.get(files.size() - 1));
    }
    return Main.DONE;
  }

  private static Set<String> unique(List<String> names) {
    return new HashSet<>(names);
  }

  private void check() {
    require(gap >= 0 && gap < 100, "--gap", gap, "a gap of 0 to 100 mm");
    require(max > 0 && max < 100, "--max", max, "a length of more than 0 and less than 100 mm");
    require(
        probability > 0.5 && probability < 1,
        "--probability",
        probability,
        "a probability of more than 0.5 and less than 1, such as 0.99");
  }

  private void require(boolean good, String option, double v, String expected) {
    if (!good) {
      throw new ParameterException(spec.commandLine(), option + " is " + v + "; give " + expected);
    }
  }
}
