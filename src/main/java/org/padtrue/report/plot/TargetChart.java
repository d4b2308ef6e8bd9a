package org.padtrue.report.plot;

import java.util.List;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Cloud;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Deviations as hits on a target: each scaled by its own tolerance, or in micrometres. */
final class TargetChart {
  private static final int SIDE = 560;
  private static final double SHARE_LEAST = 1.25;
  private static final double SHARE_MOST = 3;

  private TargetChart() {}

  /** Part frame, 1 = the placement's own tolerance. */
  static ChartFrame scaled(PlotData data, boolean after) {
    List<Point> points = data.used().stream().filter(p -> p.tolerance() != null).toList();
    Function<Point, Xy> value =
        p -> p.shares(after ? p.result().afterTrim() : p.result().deviation());
    double largest = largest(points, p -> p.shares(p.result().deviation()));
    Range r = Range.symmetric(Math.min(SHARE_MOST, Math.max(SHARE_LEAST, Range.roundUp(largest))));
    ChartFrame f =
        frame(
            after ? "With the trims, against tolerance" : "As measured, against tolerance",
            "x / own tolerance, part frame",
            "y / own tolerance, part frame",
            r);
    f.draw(
        ink -> {
          ink.box(-0.5, -0.5, 0.5, 0.5, Palette.GRID.darker(), Palette.HAIR);
          ink.box(-1, -1, 1, 1, Palette.LIMIT, Palette.LINE);
          ink.text(
              "limit", ink.x(-1) + 2, ink.y(1) - 9, Ink.Anchor.LEFT, Palette.SMALL, Palette.LIMIT);
          hits(ink, points, value, after, r, p -> beyond(value.apply(p)));
        });
    return keyed(f, after, points.size(), points.stream().anyMatch(p -> beyond(value.apply(p))));
  }

  /** Panel frame, micrometres. */
  static ChartFrame micrometres(PlotData data, boolean after) {
    Function<Point, Xy> value =
        p ->
            after
                ? um(p.result().afterTrim().x(), p.result().afterTrim().y())
                : um(p.result().deviation().x(), p.result().deviation().y());
    double largest =
        largest(data.used(), p -> um(p.result().deviation().x(), p.result().deviation().y()));
    Range r = Range.symmetric(Range.roundUp(1.05 * largest));
    ChartFrame f =
        frame(
            after ? "With the trims, micrometres" : "As measured, micrometres",
            "dx (\u00b5m), panel frame",
            "dy (\u00b5m), panel frame",
            r);
    double step = Range.roundDown125(r.high() / 2.9);
    f.draw(
        ink -> {
          for (double ring = step; ring < r.high(); ring += step) {
            ink.ellipse(0, 0, ring, ring, Palette.GRID.darker(), Palette.HAIR);
          }
          hits(ink, data.used(), value, after, r, p -> false);
        });
    return keyed(f, after, data.used().size(), false);
  }

  private static ChartFrame frame(String title, String xTitle, String yTitle, Range r) {
    ChartFrame f = new ChartFrame(SIDE, SIDE + 30, title, xTitle, yTitle, r, r);
    f.styler().setPlotGridLinesVisible(false);
    f.styler().setXAxisTickMarkSpacingHint(60);
    f.styler().setYAxisTickMarkSpacingHint(60);
    f.draw(
        ink -> {
          ink.line(ink.xRange().low(), 0, ink.xRange().high(), 0, Palette.GRID, Palette.HAIR);
          ink.line(0, ink.yRange().low(), 0, ink.yRange().high(), Palette.GRID, Palette.HAIR);
        });
    return f;
  }

  private static ChartFrame keyed(ChartFrame f, boolean after, int all, boolean anyBeyond) {
    f.key(
        after ? "placement with the trims" : "placement as measured",
        Cloud.mark(after ? Ink.Mark.DOT : Ink.Mark.RING, all),
        after ? Palette.AFTER : Palette.BEFORE);
    if (anyBeyond) {
      f.key("placement outside the limit", Ink.Mark.SQUARE, Palette.LIMIT);
    }
    // last: the legend takes height, and circles are to be round
    return f.equalScale();
  }

  private static void hits(
      Ink ink,
      List<Point> points,
      Function<Point, Xy> value,
      boolean after,
      Range r,
      Function<Point, Boolean> beyond) {
    List<Xy> inside = points.stream().filter(p -> !beyond.apply(p)).map(value).toList();
    List<Xy> outside = points.stream().filter(beyond::apply).map(value).toList();
    Cloud.draw(
        ink,
        after ? Ink.Mark.DOT : Ink.Mark.RING,
        xs(inside, r),
        ys(inside, r),
        after ? Palette.AFTER : Palette.BEFORE,
        points.size());
    ink.marks(
        Ink.Mark.SQUARE,
        xs(outside, r),
        ys(outside, r),
        Math.max(2.2, Cloud.radius(points.size())),
        Palette.faint(Palette.LIMIT, 200));
  }

  private static boolean beyond(Xy v) {
    return Math.abs(v.x()) > 1 || Math.abs(v.y()) > 1;
  }

  private static double largest(List<Point> points, Function<Point, Xy> value) {
    Stream<Xy> all = points.stream().map(value);
    return all.mapToDouble(v -> Math.max(Math.abs(v.x()), Math.abs(v.y())))
        .filter(Double::isFinite)
        .max()
        .orElse(1);
  }

  /** What lies beyond the picture is drawn on its edge. */
  private static double[] xs(List<Xy> v, Range r) {
    return clamped(v.stream().mapToDouble(Xy::x), r);
  }

  private static double[] ys(List<Xy> v, Range r) {
    return clamped(v.stream().mapToDouble(Xy::y), r);
  }

  private static double[] clamped(DoubleStream v, Range r) {
    return v.map(d -> Math.max(r.low(), Math.min(r.high(), d))).toArray();
  }

  private static Xy um(double xMm, double yMm) {
    return new Xy(xMm * 1000, yMm * 1000);
  }
}
