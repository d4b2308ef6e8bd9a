package org.padtrue.report.firstarticle;

import java.util.List;
import java.util.Locale;
import org.padtrue.analysis.Excluded;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.PlacementResult;
import org.padtrue.analysis.TrimLine;
import org.padtrue.report.StoredAnalysis;

/** What the record takes of an analysis, in memory or stored. */
record RecordSource(
    List<String> articles,
    String stage,
    String reference,
    List<PlacementResult> placements,
    List<Excluded> excluded,
    List<TrimLine> trims,
    List<String> notes) {

  static RecordSource of(FirstArticleResult r) {
    return new RecordSource(
        r.articles(),
        r.job().stage().name().toLowerCase(Locale.ROOT),
        r.job().measurement().reference().name().toLowerCase(Locale.ROOT),
        r.placements(),
        r.excluded(),
        r.trims(),
        r.notes());
  }

  static RecordSource of(StoredAnalysis a) {
    return new RecordSource(
        a.articles(), a.stage(), a.reference(), a.placements(), a.excluded(), a.trims(), a.notes());
  }
}
