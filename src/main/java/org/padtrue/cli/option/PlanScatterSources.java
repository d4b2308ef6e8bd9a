package org.padtrue.cli.option;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.next.PlacingScatter;
import org.padtrue.history.ArticleLog;
import org.padtrue.load.text.TextPieces;
import org.padtrue.log.PlanScatter;
import org.padtrue.log.ScatterFromLog;
import org.padtrue.panel.Job;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;

/**
 * The scatter that a plan reckons with: what was typed, else what earlier articles show, else
 * common practice.
 *
 * @param options for the plan
 * @param sources where the numbers come from, one sentence each
 */
public record PlanScatterSources(MeasuringPlanOptions options, List<String> sources) {
  public PlanScatterSources {
    sources = List.copyOf(sources);
  }

  /** Works it out; every argument but the job may be missing. */
  public static PlanScatterSources of(
      Job job,
      @Nullable String mm,
      @Nullable String deg,
      @Nullable String history,
      @Nullable String machine,
      @Nullable Path from) {
    List<String> sources = new ArrayList<>();
    if (history != null && from != null) {
      throw new InputException(
          Problem.of("", "--history and --from both give the scatter", "give one of them"));
    }
    PlacingScatter earlier = null;
    if (history != null || from != null) {
      earlier =
          from == null
              ? logged(job, String.valueOf(history), machine, sources)
              : stored(job, from, sources);
    }
    PlanScatter s =
        PlanScatter.of(
            job, earlier, mm, deg, new PlanScatter.Fields("--scatter", "--rotation-scatter"));
    if (s.practiceMm()) {
      sources.add(
          String.format(
              Locale.ROOT,
              "Scatter %.3f mm is common practice, not your machine's: give the one that 'analyse'"
                  + " found with --scatter, or --history for what earlier articles show.",
              s.options().scatterMm()));
    }
    if (s.practiceDeg()) {
      sources.add(
          String.format(
              Locale.ROOT,
              "Rotation scatter %.1f degrees is common practice, not your machine's; see"
                  + " --rotation-scatter.",
              s.options().scatterRotationDeg()));
    }
    return new PlanScatterSources(s.options(), sources);
  }

  private static PlacingScatter logged(
      Job job, String history, @Nullable String machine, List<String> sources) {
    try (ArticleLog log = ArticleLog.openToRead(history)) {
      ScatterFromLog s = ScatterFromLog.of(job, log, machine);
      sources.add(
          String.format(
              Locale.ROOT,
              "Scatter by part type from %s (%s) of machine %s in the log, %s; part types that they"
                  + " do not have: %.3f mm.",
              TextPieces.count(s.articles(), "article"),
              s.sameJob() ? "this job" : "other jobs",
              s.machine(),
              TextPieces.count(s.scatter().placements(), "placement"),
              s.scatter().mm()));
      return s.scatter();
    }
  }

  private static PlacingScatter stored(Job job, Path from, List<String> sources) {
    StoredAnalysis a = AnalysisJson.read(from);
    PlacingScatter s = PlacingScatter.of(List.of(a.placements()), job);
    if (Double.isNaN(s.mm())) {
      throw new InputException(
          Problem.of(
              from.toString(),
              "this analysis has too few placements to tell the scatter",
              "give --scatter"));
    }
    sources.add(
        String.format(
            Locale.ROOT,
            "Scatter by part type from %s, %s; part types that it does not have: %.3f mm.",
            from.getFileName(),
            TextPieces.count(s.placements(), "placement"),
            s.mm()));
    return s;
  }
}
