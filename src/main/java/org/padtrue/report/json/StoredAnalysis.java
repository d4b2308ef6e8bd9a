package org.padtrue.report.json;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;

/**
 * What an analysis.json says, for the commands that follow an analysis. mm, degrees, ppm, mrad; a
 * null of the file is NaN here. Keys that the contract does not list may be missing in a file from
 * elsewhere; they read as NaN, 0 or an empty list.
 *
 * @param file where it was read from
 * @param hash which analysis it is, see {@link AnalysisHash}
 * @param job the job's name
 * @param articles file names of the articles
 * @param stage tape, paste or reflowed
 * @param reference lands, fiducials or machine
 * @param panels one entry per panel
 * @param common common offset, or null when not in the model
 * @param rotationZero rotation that all parts share, or null
 * @param groups one entry per level of each factor, with its trim
 * @param batchTrim corrections for the batch
 * @param trims the trim sheet
 * @param variances standard deviations by source
 * @param scatter what no offset removes
 * @param placements every nominal placement of every panel
 * @param excluded measured placements left out of the fit
 * @param notes what a reader should know
 */
public record StoredAnalysis(
    String file,
    String hash,
    String job,
    List<String> articles,
    String stage,
    String reference,
    List<Panel> panels,
    FirstArticleResult.@Nullable Common common,
    FirstArticleResult.@Nullable RotationZero rotationZero,
    List<GroupResult> groups,
    BatchTrim batchTrim,
    List<TrimLine> trims,
    List<VarianceLine> variances,
    Scatter scatter,
    List<PlacementResult> placements,
    List<Excluded> excluded,
    List<String> notes) {

  /** Copies the lists. */
  public StoredAnalysis {
    articles = List.copyOf(articles);
    panels = List.copyOf(panels);
    groups = List.copyOf(groups);
    trims = List.copyOf(trims);
    variances = List.copyOf(variances);
    placements = List.copyOf(placements);
    excluded = List.copyOf(excluded);
    notes = List.copyOf(notes);
  }

  /**
   * One panel.
   *
   * @param panel its name
   * @param family shift, rigid, similarity or affine
   * @param transform estimates
   * @param standardErrors their standard errors
   * @param array array error or null
   * @param centroid mean position of what was measured, mm; NaN in a file from elsewhere
   * @param shiftAtCentroid fitted shift there, mm
   * @param shiftAtCentroidSe its standard errors, mm
   */
  public record Panel(
      String panel,
      String family,
      TransformValues transform,
      TransformValues standardErrors,
      @Nullable ArrayError array,
      Xy centroid,
      Xy shiftAtCentroid,
      Xy shiftAtCentroidSe) {}

  /** Standard deviation of a source on an axis; an "xy" entry serves x and y; NaN when absent. */
  public double sd(String source, String axis) {
    for (VarianceLine v : variances) {
      boolean serves = v.axis().equals(axis) || (v.axis().equals("xy") && !axis.equals("rotation"));
      if (v.source().equals(source) && serves) {
        return v.sd();
      }
    }
    return Double.NaN;
  }
}
