package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.CorrectedFile;
import org.padtrue.load.CorrectedFileInputs;
import org.padtrue.load.JobLoader;
import org.padtrue.load.LoadedJob;
import org.padtrue.report.PlanReport;
import org.padtrue.trim.MeasuringPlan;
import org.padtrue.trim.MeasuringPlanOptions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which few placements to measure, and what that buys. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Chooses which placements of a panel to measure, in a short walk, so that every",
      "trim is known. With neither --count nor --within: as many as still pay."
    },
    footer = {
      "",
      "Beside FILE stand a chart of uncertainty against number measured and a map of",
      "the walk (PNG and SVG). To measure: add columns dx, dy, drotation to FILE (or",
      "have them from --form), fill them in, and give FILE to 'analyse'; rows left",
      "empty count as not measured.",
      "",
      "Examples:",
      "  padtrue plan job.json",
      "      the list on the console, as many as still pay",
      "  padtrue plan job.json --count 20 --form --out to-measure.csv",
      "      the best 20, as a form to fill in",
      "  padtrue plan job.json --within 0.02 --scatter 0.03 --out to-measure.csv",
      "      as few as let every trim be known to 0.02 mm on a machine that scatters",
      "      by 0.03 mm (the scatter that 'analyse' found)"
    })
final class PlanCommand implements Callable<Integer> {

  /** With more placements than this the choice takes seconds, and says that it is at work. */
  private static final int LONG = 5000;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Option(names = "--count", paramLabel = "N", description = "Measure this many placements.")
  private @Nullable Integer count;

  @Option(
      names = "--within",
      paramLabel = "MM",
      description = "As few as let every trim be known to this standard error, mm.")
  private @Nullable Double within;

  @Option(
      names = "--scatter",
      paramLabel = "MM",
      description = {
        "Scatter of one placement (standard deviation per axis) to reckon with, mm.",
        "Default: 0.02 (common practice)."
      })
  private @Nullable Double scatter;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write the list (CSV), the chart and the map.")
  private @Nullable Path out;

  @Option(
      names = "--form",
      description = "Add empty columns dx, dy, drotation to FILE, to be filled in.")
  private boolean form;

  @Option(names = "--quiet", description = "Print nothing but errors.")
  private boolean quiet;

  @Override
  public Integer call() {
    MeasuringPlanOptions o = MeasuringPlanOptions.withDefaults();
    o = scatter == null ? o : o.withScatterMm(scatter);
    o = count == null ? o : o.withCount(count);
    o = within == null ? o : o.withWithinMm(within);
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    if (out != null) {
      CorrectedFile.refuseInput(out, CorrectedFileInputs.of(jobFile));
    } else if (form) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--form needs --out FILE, the file to fill in");
    }
    int all = job.job().placements().size() * job.job().array().boards().size();
    if (all > LONG && !quiet) {
      spec.commandLine().getErr().println("choosing among " + all + " placements");
    }
    MeasuringPlan plan = MeasuringPlan.of(job.job(), o);
    List<Path> files =
        out == null
            ? List.of()
            : PlanReport.write(job.job(), plan, within == null ? Double.NaN : within, form, out);
    if (!quiet) {
      PrintWriter console = spec.commandLine().getOut();
      PlanSummary.of(job.job(), plan, scatter == null, files)
          .forEach(l -> console.println(TextTable.plain(l)));
    }
    return Main.DONE;
  }
}
