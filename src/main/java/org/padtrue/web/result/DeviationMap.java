package org.padtrue.web.result;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.web.bench.MapView;

/**
 * The panel with an arrow for every measured placement: as measured, what the fit leaves, and with
 * the trims entered. Arrows are drawn larger than they are, all by the same factor.
 *
 * @param map the placements
 * @param factor how much larger than life arrows are
 * @param seen arrows as measured
 * @param residual arrows of what the model leaves
 * @param after arrows with the trims entered
 * @param panel the panel that is drawn
 * @param panels all that were measured
 */
public record DeviationMap(
    MapView map,
    String factor,
    List<Arrow> seen,
    List<Arrow> residual,
    List<Arrow> after,
    String panel,
    List<String> panels) {
  private static final double LENGTH = 0.06;
  private static final double LONGEST = 3;

  /** One arrow, in the drawing's coordinates. */
  public record Arrow(String key, String x1, String y1, String x2, String y2, boolean used) {}

  /** The map of one panel of a result. */
  static DeviationMap of(FirstArticleResult r, String panel) {
    List<PlacementResult> rows =
        r.placements().stream()
            .filter(p -> p.panel().equals(panel) && Double.isFinite(p.deviation().x()))
            .toList();
    double[] sizes =
        rows.stream()
            .filter(PlacementResult::used)
            .mapToDouble(p -> Math.hypot(p.deviation().x(), p.deviation().y()))
            .sorted()
            .toArray();
    double usual = sizes.length == 0 ? 0.02 : Math.max(0.005, sizes[sizes.length * 9 / 10]);
    MapView map = MapView.of(r.job(), panel);
    double span = Double.parseDouble(map.box().split(" ")[2]);
    double factor = nice(LENGTH * span / usual);
    double longest = LONGEST * LENGTH * span / factor;
    List<Arrow> seen = new ArrayList<>();
    List<Arrow> residual = new ArrayList<>();
    List<Arrow> after = new ArrayList<>();
    for (PlacementResult p : rows) {
      seen.add(arrow(panel, p, p.deviation(), factor, longest));
      residual.add(arrow(panel, p, p.residual(), factor, longest));
      after.add(arrow(panel, p, p.afterTrim(), factor, longest));
    }
    return new DeviationMap(
        map,
        MapView.number(factor),
        seen,
        residual,
        after,
        panel,
        r.panels().stream().map(PanelResult::panel).toList());
  }

  private static Arrow arrow(
      String panel, PlacementResult p, Xyr d, double factor, double longest) {
    double size = Math.hypot(d.x(), d.y());
    // a slip of the record would cross the whole map: its arrow shows the direction only
    double cut = Double.isFinite(size) ? Math.min(1, longest / size) : 0;
    double dx = cut == 0 ? 0 : cut * d.x();
    double dy = cut == 0 ? 0 : cut * d.y();
    double x = p.nominal().xMm();
    double y = -p.nominal().yMm();
    return new Arrow(
        panel + "/" + p.id(),
        MapView.number(x),
        MapView.number(y),
        MapView.number(x + factor * dx),
        MapView.number(y - factor * dy),
        p.used());
  }

  /** The next lower of 1, 2, 5, 10, 20, 50 ... */
  private static double nice(double v) {
    double ten = Math.pow(10, Math.floor(Math.log10(v)));
    return v >= 5 * ten ? 5 * ten : v >= 2 * ten ? 2 * ten : ten;
  }
}
