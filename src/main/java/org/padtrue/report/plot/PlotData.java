package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.panel.Factor;
import org.padtrue.panel.PartType;

/**
 * A result, sorted for charts.
 *
 * @param result all of it
 * @param used placements that took part in the fit
 * @param excluded measured placements that did not
 */
record PlotData(FirstArticleResult result, List<Point> used, List<Point> excluded) {

  static PlotData of(FirstArticleResult r) {
    Map<String, GroupResult> types = new HashMap<>();
    for (GroupResult g : r.groups()) {
      if (g.factor() == Factor.PART) {
        types.put(g.level(), g);
      }
    }
    List<Point> used = new ArrayList<>();
    List<Point> excluded = new ArrayList<>();
    for (PlacementResult p : r.placements()) {
      if (!Double.isNaN(p.deviation().x())) {
        Point point = point(p, r.job().partType(p.part()), types.get(p.part()));
        (p.used() ? used : excluded).add(point);
      }
    }
    return new PlotData(r, List.copyOf(used), List.copyOf(excluded));
  }

  private static Point point(PlacementResult p, PartType type, @Nullable GroupResult g) {
    Xy offset = g == null ? Xy.ZERO : new Xy(g.combined().x(), g.combined().y());
    boolean known = !Double.isNaN(offset.x()) && !Double.isNaN(offset.y());
    return new Point(
        p,
        type.tolerance(),
        known ? offset : Xy.ZERO,
        g == null ? 0 : g.zeroOrientation(),
        type.symmetry());
  }

  /** The same for one panel. */
  PlotData panel(String panel) {
    return new PlotData(
        result,
        used.stream().filter(p -> p.result().panel().equals(panel)).toList(),
        excluded.stream().filter(p -> p.result().panel().equals(panel)).toList());
  }

  boolean anyTolerance() {
    return used.stream().anyMatch(p -> p.tolerance() != null);
  }

  boolean anyLands() {
    return used.stream().anyMatch(Point::judgedByLands);
  }

  boolean anyRotation() {
    return used.stream().anyMatch(p -> !Double.isNaN(p.result().deviation().rotation()));
  }
}
