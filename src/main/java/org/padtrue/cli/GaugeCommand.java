package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.gauge.GaugeForm;
import org.padtrue.gauge.GaugePlacements;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.load.article.GaugeRepeat;
import org.padtrue.load.article.GaugeRepeats;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.GaugeReport;
import org.padtrue.report.json.GaugeJson;
import org.padtrue.report.words.GaugeSummary;
import org.padtrue.report.words.TextTable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Is the measurement system acceptable? */
@Command(
    name = "gauge",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Is the measurement system acceptable? From repeated readings of the same "
          + "placements: repeatability, reproducibility, bias, share of the tightest tolerance, "
          + "and the numbers for \"measurement\" in the job."
    },
    footer = {
      "",
      "REPEATS.csv has columns ref, operator, trial and dx, dy, drotation, or x, y,",
      "rotation together with --job; optional column, row, panel, and turned (0 or 180).",
      "Deviations are measured minus nominal, plus = right, up, counter-clockwise as placed.",
      "Ten placements, three operators and three trials are customary. Register the panel anew for",
      "every trial, and read some trials with the panel turned by 180 degrees: repeats alone do"
          + " not",
      "show a bias. --form writes all that down.",
      "",
      "Examples:",
      "  padtrue gauge --form --job job.json --operators Ann,Bo,Cy > form.csv",
      "      the form to fill in: every part type once, at least ten placements, over the boards",
      "  padtrue gauge repeats.csv --job job.json",
      "      the study, against the tightest tolerance of the job's parts",
      "  padtrue gauge repeats.csv --job job.json --out reports/gauge",
      "      the same, and gauge.json for other programs",
      "",
      "  ref,column,row,operator,trial,turned,dx,dy,drotation",
      "  R1,1,1,Ann,1,0,0.012,-0.008,0.05",
      "  R1,1,1,Ann,2,180,0.015,-0.011,0.10"
    })
final class GaugeCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "REPEATS.csv",
      description = "Repeated readings (CSV).")
  private @Nullable Path repeats;

  @Option(
      names = "--job",
      paramLabel = "JOB",
      description = "Job file (JSON): nominal positions and tolerances.")
  private @Nullable Path jobFile;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder for gauge.json.")
  private @Nullable Path out;

  @Option(
      names = "--form",
      description = "Print the blank form: for the placements of REPEATS.csv, or of the job.")
  private boolean form;

  @Option(
      names = "--operators",
      paramLabel = "NAME",
      split = ",",
      description = "Who reads, for --form. Default: A,B,C.")
  private List<String> operators = new ArrayList<>();

  @Option(
      names = "--trials",
      paramLabel = "N",
      description = "Repeats by each, for --form. Default: ${DEFAULT-VALUE}.",
      defaultValue = "3")
  private int trials;

  @Option(
      names = "--count",
      paramLabel = "N",
      description =
          "Placements to read, for --form. Default: one of every part type, but at least ten.")
  private @Nullable Integer count;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    LoadedJob job = jobFile == null ? null : JobLoader.loadWithFile(jobFile).orThrow();
    PrintWriter console = spec.commandLine().getOut();
    if (form) {
      form(job).forEach(l -> console.println(TextTable.plain(l)));
      return Main.DONE;
    }
    if (repeats == null) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "Missing required parameter: 'REPEATS.csv' (or --form)");
    }
    GaugeRepeats file = GaugeRepeats.load(repeats, job).orThrow();
    GaugeStudy study = GaugeReport.study(file, job == null ? null : job.job());
    Path json = out == null ? null : GaugeJson.write(study, file.nominalKnown(), out);
    if (!quiet.given) {
      GaugeSummary.of(study, file, job != null).forEach(l -> console.println(TextTable.plain(l)));
      if (json != null) {
        console.println("FILE       " + json);
      }
    }
    return Main.DONE;
  }

  private List<String> form(@Nullable LoadedJob job) {
    Set<String> refs = new LinkedHashSet<>();
    Set<String> who = new LinkedHashSet<>(operators);
    List<String> about = new ArrayList<>();
    if (repeats != null) {
      for (GaugeRepeat r : GaugeRepeats.load(repeats, job).orThrow().readings()) {
        refs.add(r.id());
        if (operators.isEmpty()) {
          who.add(r.operator());
        }
      }
    } else if (job != null) {
      GaugePlacements chosen = GaugePlacements.of(job.job(), count);
      refs.addAll(chosen.refs());
      about.add(chosen.sentence());
    } else {
      throw new InputException(
          Problem.of(
              "",
              "the form needs placements to read",
              "give --job JOB, or a REPEATS.csv that names them"));
    }
    return GaugeForm.lines(
        List.copyOf(refs),
        who.isEmpty() ? List.of("A", "B", "C") : List.copyOf(who),
        trials,
        about);
  }
}
