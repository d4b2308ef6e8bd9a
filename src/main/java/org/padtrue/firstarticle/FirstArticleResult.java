package org.padtrue.firstarticle;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.decide.SheetGuard;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.BudgetLine;
import org.padtrue.firstarticle.result.ClearanceResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.NextPlacement;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.Quadrant;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.panel.Job;

/**
 * Everything an analysis found, with the inputs and options it used.
 *
 * @param job the job
 * @param articles file names
 * @param options what was asked
 * @param counts how many of what
 * @param panels one entry per panel
 * @param common offset in the part frame that all parts share, or null when not in the model
 * @param rotationZero rotation that all parts share; null when no rotation was measured
 * @param groups one entry per level of each factor
 * @param batchTrim corrections for the batch
 * @param trims the trim sheet, one line per thing to change, in the order to enter them
 * @param tests families of terms
 * @param variances standard deviations by source
 * @param budget mean squares by source
 * @param scatter what no offset removes
 * @param prediction root mean squares before and after
 * @param quadrants mean residuals at quarter turns
 * @param aliases terms that cannot be told apart
 * @param excluded measured placements left out of the fit
 * @param placements every nominal placement of every panel
 * @param missing nominal placements that were not measured: names column/row/ref, first panel first
 * @param acceptance how it stands against limits
 * @param clearances neighbours that can come near
 * @param next every placement of the next panel; empty when its scatter is not known
 * @param notes what a reader should know, one sentence each
 */
public record FirstArticleResult(
    Job job,
    List<String> articles,
    AnalysisOptions options,
    Counts counts,
    List<PanelResult> panels,
    @Nullable Common common,
    @Nullable RotationZero rotationZero,
    List<GroupResult> groups,
    BatchTrim batchTrim,
    List<TrimLine> trims,
    List<FamilyTest> tests,
    List<VarianceLine> variances,
    List<BudgetLine> budget,
    Scatter scatter,
    Prediction prediction,
    List<Quadrant> quadrants,
    List<Alias> aliases,
    List<Excluded> excluded,
    List<PlacementResult> placements,
    List<String> missing,
    Acceptance acceptance,
    List<ClearanceResult> clearances,
    List<NextPlacement> next,
    List<String> notes) {

  /** Why nothing is trimmed although terms stand out: the sheet as a whole would not help. */
  public Optional<String> whyLeft() {
    return SheetGuard.said(notes);
  }

  /** How many of what; {@code nominal} counts placements of all panels. */
  public record Counts(int nominal, int measured, int used, int excluded, int missing) {}

  /** Offset that all parts share, part frame, mm. */
  public record Common(Xy value, Xy standardErrors) {}

  /** Rotation that all parts share, degrees. */
  public record RotationZero(double value, double standardError) {}
}
