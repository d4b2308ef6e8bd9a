package org.padtrue.check;

import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.mixed.PanelFamily;

/** What an analysis of this run knows. */
public final class AnalysedBefore {
  private AnalysedBefore() {}

  public static TrimCheckBefore of(FirstArticleResult r) {
    List<PanelResult> p = r.panels();
    return new TrimCheckBefore(
        p.stream().map(PanelResult::panel).toList(),
        p.stream().map(PanelResult::transform).toList(),
        p.isEmpty() ? PanelFamily.SHIFT.key() : p.get(0).family(),
        p.isEmpty() ? null : p.get(0).array(),
        r.common(),
        r.rotationZero(),
        r.groups(),
        r.batchTrim(),
        r.variances(),
        r.scatter(),
        r.placements());
  }
}
