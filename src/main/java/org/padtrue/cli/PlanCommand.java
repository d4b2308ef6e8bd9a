package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.cli.option.PlanScatterSources;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.load.corrected.CorrectedFile;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.report.PlanReport;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.PlanSummary;
import org.padtrue.report.words.TextTable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which few placements to measure, and what can then be decided. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Chooses which placements of a panel to measure, in a short walk, so that trims can "
          + "be decided: at least three of every part type, nozzle and what else the files list, "
          + "spread over the boards.",
      "With neither --count nor --within: as many as are enough to decide by. Says what it "
          + "will not be able to decide, and what would make it decidable."
    },
    footer = {
      "",
      "Beside FILE stand a chart of uncertainty against number measured and a map of the walk.",
      "To measure: add columns dx, dy, drotation to FILE (or have them from --form)," + " fill",
      "them in, and give FILE to 'analyse'; rows left empty count as not measured.",
      "What to write: measured minus nominal, mm and degrees, plus = right, up, counter-clockwise"
          + " as",
      "placed.",
      "",
      "Examples:",
      "  padtrue plan job.json",
      "      the list on the console, as many as are enough",
      "  padtrue plan job.json --count 20 --form --out to-measure.csv",
      "      the best 20, as a form to fill in",
      "  padtrue plan job.json --scatter 0.02,L2020=0.05 --rotation-scatter 0.15",
      "      inductors L2020 scatter by 0.05 mm, all others by 0.02 mm",
      "  padtrue plan job.json --history padtrue-history.db --out to-measure.csv",
      "      scatter by part type as earlier articles in the log show it",
      "  padtrue plan job.json --within 0.02 --from report/analysis.json --out to-measure.csv",
      "      as few as let every trim be known to 0.02 mm on a machine that scatters as that"
          + " analysis",
      "      found"
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
      description =
          "Scatter of one placement (one standard deviation per axis), mm; that of single part"
              + " types behind commas: 0.02,L2020=0.05. Default: 0.02 (common practice).")
  private @Nullable String scatter;

  @Option(
      names = "--rotation-scatter",
      paramLabel = "DEG",
      description =
          "The same for rotation, degrees: 0.1 or 0.1,L2020=0.3. Default: 0.1 (common practice).")
  private @Nullable String rotationScatter;

  @Option(
      names = "--history",
      paramLabel = "URL",
      description = {
        "Take scatter and rotation scatter by part type from earlier articles in this log: "
            + "those of this job, else of the machine's other jobs. --scatter goes before it."
      })
  private @Nullable String history;

  @Option(
      names = "--machine",
      paramLabel = "M",
      description = "With --history: the machine; may be left out when the log has only one.")
  private @Nullable String machine;

  @Option(
      names = "--from",
      paramLabel = "ANALYSIS.json",
      description = "Take scatter and rotation scatter by part type from one analysis instead.")
  private @Nullable Path from;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write the list (CSV), the chart and the map.")
  private @Nullable Path out;

  @Option(
      names = "--form",
      description = "Add empty columns dx, dy, drotation to FILE, to be filled in.")
  private boolean form;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ChartsOption charts;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    Set<ChartFormat> formats = charts.formats();
    charts.refuseWhere(out == null, "nothing is drawn without --out FILE");
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    PlanScatterSources assumed =
        PlanScatterSources.of(job.job(), scatter, rotationScatter, history, machine, from);
    MeasuringPlanOptions o = assumed.options();
    o = count == null ? o : o.withCount(count);
    o = within == null ? o : o.withWithinMm(within);
    if (out != null) {
      CorrectedFile.refuseInput(out, CorrectedFileInputs.of(jobFile));
    } else if (form) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--form needs --out FILE, the file to fill in");
    }
    int all = job.job().placements().size() * job.job().array().boards().size();
    if (all > LONG && !quiet.given) {
      spec.commandLine().getErr().println("choosing among " + all + " placements");
    }
    MeasuringPlan plan = MeasuringPlan.of(job.job(), o);
    List<Path> files =
        out == null
            ? List.of()
            : PlanReport.write(
                job.job(), plan, within == null ? Double.NaN : within, form, out, formats);
    if (!quiet.given) {
      PrintWriter console = spec.commandLine().getOut();
      PlanSummary.of(job.job(), plan, assumed.sources(), files)
          .forEach(l -> console.println(TextTable.plain(l)));
    }
    return Main.DONE;
  }
}
