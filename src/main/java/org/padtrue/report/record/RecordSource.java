package org.padtrue.report.record;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.panel.Factor;
import org.padtrue.report.json.AnalysisHash;
import org.padtrue.report.json.StoredAnalysis;

/** What the record takes of an analysis, in memory or stored. */
record RecordSource(
    Supplier<String> hash,
    List<String> articles,
    String stage,
    String reference,
    List<PlacementResult> placements,
    List<Excluded> excluded,
    List<TrimLine> trims,
    Map<String, Integer> turned,
    List<String> notes) {

  static RecordSource of(FirstArticleResult r) {
    return new RecordSource(
        () -> AnalysisHash.of(r),
        r.articles(),
        r.job().stage().name().toLowerCase(Locale.ROOT),
        r.job().measurement().reference().name().toLowerCase(Locale.ROOT),
        r.placements(),
        r.excluded(),
        r.trims(),
        turned(r.groups()),
        r.notes());
  }

  /** Part types that are turned as a whole, degrees. */
  private static Map<String, Integer> turned(List<GroupResult> groups) {
    Map<String, Integer> turned = new HashMap<>();
    groups.stream()
        .filter(g -> g.factor() == Factor.PART && g.zeroOrientation() != 0)
        .forEach(g -> turned.put(g.level(), g.zeroOrientation()));
    return turned;
  }

  static RecordSource of(StoredAnalysis a) {
    return new RecordSource(
        a::hash,
        a.articles(),
        a.stage(),
        a.reference(),
        a.placements(),
        a.excluded(),
        a.trims(),
        turned(a.groups()),
        a.notes());
  }
}
