package org.padtrue.report.record;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measurement;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.json.AnalysisHash;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.words.LimitWords;

/** Makes a record of an analysis. */
public final class FirstArticleRecords {
  private FirstArticleRecords() {}

  /**
   * From an analysis in memory.
   *
   * @throws InputException when the identification names a placement that is not there, the check
   *     is of another job or analysis, or the guarded rule lacks an uncertainty
   */
  public static FirstArticleRecord of(FirstArticleResult r, RecordOptions options) {
    return of(r.job(), RecordSource.of(r), options);
  }

  /** From a stored analysis of this job; see {@link #of(FirstArticleResult, RecordOptions)}. */
  public static FirstArticleRecord of(Job job, StoredAnalysis a, RecordOptions options) {
    return of(job, RecordSource.of(a), options);
  }

  private static FirstArticleRecord of(Job job, RecordSource source, RecordOptions options) {
    require(job, source, options);
    Measurement m = job.measurement();
    Measuring measuring =
        new Measuring(
            m.uncertaintyMm(),
            m.rotationUncertaintyDeg(),
            m.biasMm(),
            options.coverageFactor(),
            options.rule());
    List<String> notes = new ArrayList<>(source.notes());
    return new FirstArticleRecord(
        options.identification(),
        job.name(),
        job.side().name().toLowerCase(Locale.ROOT),
        source.stage(),
        source.reference(),
        job.acceptanceClass(),
        LimitWords.lines(job),
        LimitWords.summary(job),
        source.articles(),
        measuring,
        Characteristics.of(job, source, measuring, options.identification()),
        source.trims(),
        options.check(),
        MovedPlacement.of(options.room()),
        options.attachments(),
        notes);
  }

  private static void require(Job job, RecordSource source, RecordOptions options) {
    List<Problem> problems = new ArrayList<>();
    unknownPlacements(source, options.identification(), problems);
    StoredCheck check = options.check();
    if (check != null && !check.job().isEmpty() && !check.job().equals(job.name())) {
      problems.add(
          Problem.of(
              check.file(),
              "this is the check of job '" + check.job() + "', not of '" + job.name() + "'",
              "give the check.json of this job"));
    } else if (check != null) {
      AnalysisHash.mismatch(check.file(), "check", check.analysisHash(), source.hash().get())
          .ifPresent(problems::add);
    }
    if (options.rule() == DecisionRule.GUARDED) {
      stated(job.measurement().uncertaintyMm(), "uncertainty", problems);
      stated(job.measurement().rotationUncertaintyDeg(), "rotationUncertainty", problems);
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private static void stated(double value, String key, List<Problem> problems) {
    if (Double.isNaN(value)) {
      problems.add(
          Problem.of(
              "",
              "the guarded decision rule needs measurement."
                  + key
                  + ", which the job does not state",
              "add it to the job ('gauge' gives it), or take the simple rule"));
    }
  }

  private static void unknownPlacements(
      RecordSource source, Identification identification, List<Problem> problems) {
    Set<String> known = new HashSet<>();
    for (PlacementResult p : source.placements()) {
      known.add(p.ref());
      known.add(p.id());
    }
    List<PlacementText> all = new ArrayList<>(identification.nonconformances());
    all.addAll(identification.designators());
    for (PlacementText t : all) {
      if (!known.contains(t.placement())) {
        problems.add(
            Problem.of(
                "",
                "the identification names the placement '"
                    + t.placement()
                    + "', which the analysis does not have",
                "write REF or COLUMN/ROW/REF as the analysis does"));
      }
    }
  }
}
