package org.padtrue.report.plot;

import java.awt.geom.Path2D;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.ChartRows;
import org.padtrue.report.plot.ink.Cloud;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.MarkPaths;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Charts with one row per part type: spread along x and y, rotation, use of tolerance. */
final class TypeCharts {
  private static final int HALF_WIDTH = 560;
  private static final int WIDTH = 980;
  private static final double USE_MOST = 2;

  private TypeCharts() {}

  /** What each type shows along one axis of its own frame when the panel's terms are taken off. */
  static ChartFrame spread(PlotData data, boolean alongX) {
    TypeRows rows = TypeRows.of(data.used());
    ToDoubleFunction<Point> value = p -> own(p, alongX);
    String axis = alongX ? "x" : "y";
    double most =
        Math.max(largest(data.used(), p -> own(p, true)), largest(data.used(), p -> own(p, false)));
    Range range = Range.symmetric(Range.roundUp(1.05 * most));
    ChartFrame f =
        ChartRows.frame(
            HALF_WIDTH,
            "Spread by part type, " + axis,
            axis + " (\u00b5m), part frame",
            range,
            rows.names());
    f.key("placement", Cloud.mark(Ink.Mark.DOT, data.used().size()), Palette.AFTER);
    f.key("predicted offset of the type", Ink.Mark.DIAMOND, Palette.INK);
    f.draw(
        ink -> {
          zero(ink);
          rows.strip(ink, value, -0.32, 0.32, Ink.Mark.DOT, Palette.AFTER);
          int own = rows.pooled() ? rows.points().size() - 1 : rows.points().size();
          for (int i = 0; i < own; i++) {
            Xy offset = rows.points().get(i).get(0).ownOffset();
            diamond(
                ink,
                1000 * (alongX ? offset.x() : offset.y()),
                ChartRows.place(i, rows.points().size()));
          }
        });
    return f;
  }

  private static double own(Point p, boolean alongX) {
    Xy r = p.inPartFrame(p.result().residual());
    return 1000 * (alongX ? r.x() + p.ownOffset().x() : r.y() + p.ownOffset().y());
  }

  /** Rotation deviations as measured and with the trims. */
  static ChartFrame rotation(PlotData data) {
    List<Point> turned =
        data.used().stream().filter(p -> !Double.isNaN(p.result().deviation().rotation())).toList();
    TypeRows rows = TypeRows.of(turned);
    ToDoubleFunction<Point> before = p -> p.rotationFromOwnZero(p.result().deviation());
    ToDoubleFunction<Point> after = p -> p.rotationFromOwnZero(p.result().afterTrim());
    double most = Math.max(largest(turned, before), largest(turned, after));
    Range range = Range.symmetric(Range.roundUp(1.05 * most));
    ChartFrame f =
        ChartRows.frame(
            WIDTH,
            "Rotation by part type",
            "rotation deviation (degrees), counter-clockwise plus",
            range,
            rows.names());
    f.draw(TypeCharts::zero);
    pair(f, rows, before, after);
    return f;
  }

  /** How much of its own tolerance each placement uses. */
  static ChartFrame toleranceUse(PlotData data) {
    List<Point> judged = data.used().stream().filter(p -> p.tolerance() != null).toList();
    TypeRows rows = TypeRows.of(judged);
    double limit = 100 * USE_MOST;
    ToDoubleFunction<Point> before = p -> Math.min(limit, 100 * p.share(p.result().deviation()));
    ToDoubleFunction<Point> after = p -> Math.min(limit, 100 * p.share(p.result().afterTrim()));
    double most = Math.max(115, 1.05 * Math.max(largest(judged, before), largest(judged, after)));
    double high = Math.min(limit, Range.roundUp(most));
    ChartFrame f =
        ChartRows.frame(
            WIDTH,
            "Use of each placement's own tolerance",
            "largest of x, y and rotation, % of the placement's tolerance",
            new Range(-0.012 * high, high),
            rows.names());
    pair(f, rows, before, after);
    return limit(f, 100);
  }

  /** Distance that is left before the limit, for placements judged by their lands. */
  static ChartFrame margin(PlotData data) {
    List<Point> judged = data.used().stream().filter(Point::judgedByLands).toList();
    TypeRows rows = TypeRows.of(judged);
    double most =
        judged.stream()
            .mapToDouble(p -> Math.max(p.result().margin(), p.result().marginAfterTrim()))
            .filter(Double::isFinite)
            .max()
            .orElse(0);
    double high = Range.roundUp(1.05 * Math.max(0.01, 1000 * most));
    double low = -high / 2;
    ToDoubleFunction<Point> before = p -> Math.max(low, 1000 * p.result().margin());
    ToDoubleFunction<Point> after = p -> Math.max(low, 1000 * p.result().marginAfterTrim());
    ChartFrame f =
        ChartRows.frame(
            WIDTH,
            "Distance left before the limit",
            "distance that a termination may still move (\u00b5m); below 0 outside",
            new Range(low, high),
            rows.names());
    pair(f, rows, before, after);
    return limit(f, 0);
  }

  private static ChartFrame limit(ChartFrame f, double at) {
    f.draw(
        ink ->
            ink.line(at, ink.yRange().low(), at, ink.yRange().high(), Palette.LIMIT, Palette.LINE));
    f.draw(
        ink ->
            ink.text(
                "limit",
                ink.x(at) + 5,
                ink.area().getMinY() + 9,
                Ink.Anchor.LEFT,
                Palette.SMALL,
                Palette.LIMIT));
    return f;
  }

  private static void pair(
      ChartFrame f, TypeRows rows, ToDoubleFunction<Point> before, ToDoubleFunction<Point> after) {
    f.key("as measured (upper)", Cloud.mark(Ink.Mark.RING, rows.size()), Palette.BEFORE);
    f.key("with the trims (lower)", Cloud.mark(Ink.Mark.DOT, rows.size()), Palette.AFTER);
    f.draw(
        ink -> {
          rows.strip(ink, before, 0.06, 0.38, Ink.Mark.RING, Palette.BEFORE);
          rows.strip(ink, after, -0.38, -0.06, Ink.Mark.DOT, Palette.AFTER);
        });
  }

  private static void zero(Ink ink) {
    ink.line(0, ink.yRange().low(), 0, ink.yRange().high(), Palette.OUTLINE, Palette.LINE);
  }

  private static void diamond(Ink ink, double x, double y) {
    Path2D.Float halo = new Path2D.Float();
    MarkPaths.append(halo, Ink.Mark.DIAMOND, ink.x(x), ink.y(y), 7);
    ink.fill(halo, Palette.PAPER);
    ink.marks(Ink.Mark.DIAMOND, new double[] {x}, new double[] {y}, 5, Palette.INK);
  }

  private static double largest(List<Point> points, ToDoubleFunction<Point> value) {
    return points.stream()
        .mapToDouble(value)
        .map(Math::abs)
        .filter(Double::isFinite)
        .max()
        .orElse(1);
  }
}
