package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.HistoryOption;
import org.padtrue.cli.option.JsonOnlyOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.drift.DriftOptions;
import org.padtrue.history.ArticleLog;
import org.padtrue.log.DriftStudy;
import org.padtrue.log.SeriesNames;
import org.padtrue.report.DriftReport;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.DriftSummary;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What drifts over the articles of a machine. */
@Command(
    name = "drift",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Says what drifts on a machine, since when, with what, and what to do about it.",
      "Reads the log that 'record' writes; writes drift.html, drift.json and charts into a "
          + "folder."
    },
    footer = {
      "",
      "Examples:",
      "  padtrue drift",
      "  padtrue drift --machine M2 --out reports/m2",
      "  padtrue drift --limit scaleXPpm=150",
      "  padtrue drift --history postgresql://line@server/padtrue --job \"Main board\""
    })
final class DriftCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private HistoryOption history;

  @Option(
      names = "--machine",
      paramLabel = "M",
      description = "The machine; may be left out when the log has only one.")
  private @Nullable String machine;

  @Option(
      names = "--job",
      paramLabel = "NAME",
      description = "Only articles of this job. Default: all jobs of the machine.")
  private @Nullable String job;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the results. Default: ${DEFAULT-VALUE}.",
      defaultValue = "padtrue-drift")
  @SuppressWarnings("NullAway.Init")
  private Path out;

  @Option(
      names = "--base",
      paramLabel = "N",
      description = "Limits come from the first N articles. Default: half, 20 to 50.",
      defaultValue = "0")
  private int base;

  @Option(
      names = "--limit",
      paramLabel = "NAME=VALUE",
      description = {
        "How far a series may go, for forecasts, in mm, degrees, ppm or mrad: scaleXPpm=100, "
            + "\"part * x=0.03\". Default: the no-adjustment limit of the last article's job."
      })
  private Map<String, Double> limits = new LinkedHashMap<>();

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ChartsOption charts;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private JsonOnlyOption json;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    Set<ChartFormat> formats = charts.formats();
    charts.refuseWhere(json.given, JsonOnlyOption.NO_CHARTS);
    PrintWriter console = spec.commandLine().getOut();
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    DriftStudy study;
    try (ArticleLog log = ArticleLog.openToRead(history.url)) {
      progress.step("reading the log", 0, 1);
      study =
          DriftStudy.of(
              log,
              machine,
              job,
              DriftOptions.withDefaults().withBasePoints(Math.max(0, base)).withLimits(limits()));
    }
    if (json.given) {
      Path file = DriftReport.writeJson(study, out);
      if (!quiet.given) {
        console.println(file);
      }
      return Main.DONE;
    }
    DriftReport.write(study, out, formats, progress::step);
    if (!quiet.given) {
      DriftSummary.of(study, out).forEach(console::println);
    }
    return Main.DONE;
  }

  private Map<String, Double> limits() {
    limits.forEach(
        (name, v) -> {
          if (SeriesNames.trimUnit(name).isEmpty() && !SeriesNames.PANEL.contains(name)) {
            throw new CommandLine.ParameterException(
                spec.commandLine(),
                "--limit names '" + name + "'; expected a series like scaleXPpm or \"part * x\"");
          }
          if (!(v > 0)) {
            throw new CommandLine.ParameterException(
                spec.commandLine(), "--limit " + name + " = " + v + "; expected more than 0");
          }
        });
    return limits;
  }
}
