package org.padtrue.check;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.VarianceLine;

/**
 * What is known of an analysis when a second article comes in.
 *
 * @param panels names of its panels
 * @param transforms their transforms, in the same order; NaN for what the reference hides
 * @param family family of the transforms
 * @param array array error, or null when not in the model
 * @param common common offset, or null when not in the model
 * @param rotationZero rotation that all parts share, or null
 * @param groups levels with offsets and trims
 * @param batchTrim corrections for the batch
 * @param variances standard deviations by source
 * @param scatter what no offset removes
 * @param placements every placement; those that were used show how well each term was known
 */
public record TrimCheckBefore(
    List<String> panels,
    List<TransformValues> transforms,
    String family,
    @Nullable ArrayError array,
    FirstArticleResult.@Nullable Common common,
    FirstArticleResult.@Nullable RotationZero rotationZero,
    List<GroupResult> groups,
    BatchTrim batchTrim,
    List<VarianceLine> variances,
    Scatter scatter,
    List<PlacementResult> placements) {

  public TrimCheckBefore {
    panels = List.copyOf(panels);
    transforms = List.copyOf(transforms);
    groups = List.copyOf(groups);
    variances = List.copyOf(variances);
    placements = List.copyOf(placements);
  }

  /** Standard deviation of a source; an "xy" entry serves x and y; NaN when absent. */
  double sd(String source, String axis) {
    for (VarianceLine v : variances) {
      boolean serves = v.axis().equals(axis) || v.axis().equals("xy") && !axis.equals("rotation");
      if (v.source().equals(source) && serves) {
        return v.sd();
      }
    }
    return Double.NaN;
  }
}
