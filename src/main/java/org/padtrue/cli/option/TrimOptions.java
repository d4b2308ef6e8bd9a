package org.padtrue.cli.option;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedTrim;
import org.padtrue.log.SeriesNames;
import org.padtrue.log.TrimIncrements;
import org.padtrue.panel.Job;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import picocli.CommandLine;
import picocli.CommandLine.Option;

/** Trims entered into the machine since the previous article. */
public final class TrimOptions {
  @Option(
      names = "--trims",
      paramLabel = "ANALYSIS.json",
      description = {
        "The analysis whose trims were entered after the previous article; they add to those "
            + "entered before."
      })
  private @Nullable Path analysis;

  @Option(
      names = "--entered",
      paramLabel = "KINDS",
      split = ",",
      description = "Only these kinds of its trims were entered: registration, scale, part ...")
  private List<String> entered = List.of("all");

  @Option(
      names = "--trim",
      paramLabel = "NAME=VALUE",
      description = {
        "One trim entered by hand: a value that was ADDED, in mm, degrees, ppm or mrad, e.g.",
        "shiftX=0.03, scaleXPpm=-120, \"part R0603 x=0.02\"."
      })
  private Map<String, Double> single = new LinkedHashMap<>();

  /** The increments. */
  public List<LoggedTrim> read(Job job, ArticleTerms article, CommandLine line) {
    List<LoggedTrim> all = new ArrayList<>();
    if (analysis != null) {
      StoredAnalysis a = AnalysisJson.read(analysis);
      all.addAll(
          TrimIncrements.of(
              a.batchTrim(),
              a.groups(),
              job.array(),
              TrimKinds.parse("--entered", entered, line),
              a.job().equals(job.name()),
              LoggedAttachment.of(analysis).sha256(),
              article));
    }
    single.forEach((name, v) -> all.addAll(trim(name, v, line)));
    return all;
  }

  private static List<LoggedTrim> trim(String name, double value, CommandLine line) {
    String unit =
        SeriesNames.trimUnit(name)
            .orElseThrow(
                () ->
                    new CommandLine.ParameterException(
                        line,
                        "--trim names '"
                            + name
                            + "'; expected shiftX, shiftY, rotation, scaleXPpm, scaleYPpm,"
                            + " squarenessMrad, rotationZero or like \"part R0603 x\", \"part R0603"
                            + " turn\""));
    if (!Double.isFinite(value)) {
      throw new CommandLine.ParameterException(line, "--trim " + name + " is not a number");
    }
    SeriesNames.wrong(name, value)
        .ifPresent(
            why -> {
              throw new CommandLine.ParameterException(
                  line, "--trim " + name + "=" + value + ": " + why);
            });
    return new LoggedTrim(name, unit, value, LoggedTrim.usualScope(name), "").apart();
  }
}
