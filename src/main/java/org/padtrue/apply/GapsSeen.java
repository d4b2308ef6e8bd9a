package org.padtrue.apply;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.padtrue.land.clearance.OutlinePair;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredRoom;

/** Whether the gaps that moves were to make are there on a measured article. */
final class GapsSeen {
  private GapsSeen() {}

  /**
   * Every pair of the solved groups on every panel of an article.
   *
   * @param job the job with its placements moved
   * @param room the moves
   * @param articles placed with them
   */
  static List<TrimCheckReport.Gap> of(LoadedJob job, StoredRoom room, List<Article> articles) {
    List<TrimCheckReport.Gap> out = new ArrayList<>();
    for (Article a : articles) {
      Map<String, Map<String, Measured>> panels = new LinkedHashMap<>();
      for (Measured m : a.measured()) {
        panels.computeIfAbsent(m.panel(), k -> new HashMap<>()).put(m.id(), m);
      }
      panels.forEach(
          (panel, by) -> room.solvedPairs().forEach(p -> out.add(seen(job, panel, p, by))));
    }
    return out;
  }

  private static TrimCheckReport.Gap seen(
      LoadedJob job, String panel, StoredRoom.Pair p, Map<String, Measured> by) {
    Measured a = by.get(p.a());
    Measured b = by.get(p.b());
    double gap = Double.NaN;
    if (a != null && b != null) {
      Optional<OutlinePair> o =
          OutlinePair.of(
              job.job().partType(a.placement().part()), job.job().partType(b.placement().part()));
      gap = o.map(x -> x.gap(pose(a), pose(b))).orElse(Double.NaN);
    }
    return new TrimCheckReport.Gap(panel, p.a(), p.b(), p.gapAfterMm(), gap);
  }

  private static Pose pose(Measured m) {
    Pose n = m.nominal();
    double turn = Double.isNaN(m.dRotationDeg()) ? 0 : m.dRotationDeg();
    return new Pose(n.xMm() + m.dxMm(), n.yMm() + m.dyMm(), Angles.wrap(n.rotationDeg() + turn));
  }

  /** In words, one sentence a gap that is too small and one for all that are there. */
  static List<String> words(List<TrimCheckReport.Gap> gaps, double wantedMm) {
    List<String> out = new ArrayList<>();
    int there = 0;
    int unknown = 0;
    for (TrimCheckReport.Gap g : gaps) {
      if (Double.isNaN(g.seenMm())) {
        unknown++;
      } else if (g.seenMm() < wantedMm) {
        out.add(
            String.format(
                Locale.ROOT,
                "%s and %s stand %.3f mm apart on panel %s, not the %.3f mm that were made room"
                    + " for%s",
                g.a(),
                g.b(),
                g.seenMm(),
                g.panel(),
                wantedMm,
                g.seenMm() < 0 ? ": they touch" : ""));
      } else {
        there++;
      }
    }
    if (there > 0) {
      out.add(
          String.format(
              Locale.ROOT,
              "%d of the %d gaps that were made room for are there as measured (%.3f mm or more)",
              there,
              gaps.size(),
              wantedMm));
    }
    if (unknown > 0) {
      out.add(unknown + " of the gaps that were made room for were not measured");
    }
    return out;
  }
}
