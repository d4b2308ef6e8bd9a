package org.padtrue.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.geom.Path2D;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.MeasuringPlan.CurvePoint;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Standard error of the worst and of the middle trim against the number measured. */
final class PlanCurve {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 480;

  /** The steep start would press the rest flat: the axis ends at this many times the plan's own. */
  private static final double TOP = 3.5;

  private static final BasicStroke THICK =
      new BasicStroke(2.2f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);

  private PlanCurve() {}

  static ChartFrame frame(MeasuringPlan plan, double wantedMm) {
    List<CurvePoint> curve = plan.curve();
    int n = plan.lines().size();
    double last = curve.isEmpty() ? n : Math.max(n, curve.get(curve.size() - 1).count());
    double floor = 1000 * floor(plan);
    double wanted = 1000 * wantedMm;
    // room at the right for what is written beside the plan's own point
    Range x = new Range(0, Math.max(last * 1.03 + 0.5, 1.3 * n));
    Range y = new Range(0, Range.roundUp(top(plan, floor, wanted)));
    ChartFrame f =
        new ChartFrame(
            WIDTH,
            HEIGHT,
            "How well trims are known",
            "placements measured",
            "one standard error (\u00b5m)",
            x,
            y);
    f.styler().setXAxisTickMarkSpacingHint((int) Math.max(70, 0.95 * WIDTH / x.high()));
    f.key("worst trim", Ink.Mark.LINE, Palette.BEFORE);
    f.key("middle trim", Ink.Mark.LINE, Palette.AFTER);
    f.key("worst of this plan, after exchanging placements", Ink.Mark.DIAMOND, Palette.INK);
    f.draw(
        ink -> {
          level(ink, floor, "worst with all " + plan.candidates() + " measured", Palette.QUIET);
          level(ink, wanted, "wanted", Palette.LIMIT);
          line(ink, curve, c -> 1000 * c.worstMm(), Palette.BEFORE);
          line(ink, curve, c -> 1000 * c.medianMm(), Palette.AFTER);
          own(ink, n, 1000 * plan.worstMm());
        });
    return f;
  }

  private static double floor(MeasuringPlan plan) {
    return plan.terms().stream().mapToDouble(MeasuringPlan.Term::everything).max().orElse(0);
  }

  private static double top(MeasuringPlan plan, double floor, double wanted) {
    double seen =
        plan.curve().stream()
            .mapToDouble(c -> 1000 * c.worstMm())
            .filter(Double::isFinite)
            .max()
            .orElse(10);
    double own = Double.isFinite(plan.worstMm()) ? TOP * 1000 * plan.worstMm() : seen;
    double least =
        Math.max(Double.isFinite(floor) ? 1.2 * floor : 0, wanted > 0 ? wanted * 1.2 : 0);
    return Math.max(least, Math.min(1.05 * seen, own));
  }

  private static void level(Ink ink, double um, String words, Color color) {
    if (!Double.isFinite(um) || !ink.yRange().contains(um)) {
      return;
    }
    ink.line(ink.xRange().low(), um, ink.xRange().high(), um, color, Palette.DASH);
    ink.text(
        words + ": " + Labels.number(um) + " \u00b5m",
        ink.area().getMinX() + 8,
        ink.y(um) + 10,
        Ink.Anchor.LEFT,
        Palette.SMALL,
        color);
  }

  /** The curve where it is known, cut at the top of the axes. */
  private static void line(
      Ink ink, List<CurvePoint> curve, ToDoubleFunction<CurvePoint> um, Color color) {
    double top = ink.yRange().high();
    Path2D.Float p = new Path2D.Float();
    for (int i = 0; i < curve.size(); i++) {
      double x = curve.get(i).count();
      double y = um.applyAsDouble(curve.get(i));
      if (!(y <= top)) {
        continue;
      }
      double before = i == 0 ? Double.NaN : um.applyAsDouble(curve.get(i - 1));
      if (before > top) {
        to(p, ink.x(x - (top - y) / (before - y)), ink.y(top));
      }
      to(p, ink.x(x), ink.y(y));
    }
    ink.stroke(p, color, THICK);
  }

  private static void to(Path2D.Float p, double x, double y) {
    if (p.getCurrentPoint() == null) {
      p.moveTo(Ink.tenth(x), Ink.tenth(y));
    } else {
      p.lineTo(Ink.tenth(x), Ink.tenth(y));
    }
  }

  private static void own(Ink ink, int n, double um) {
    if (!Double.isFinite(um)) {
      return;
    }
    ink.line(n, ink.yRange().low(), n, um, Palette.INK, Palette.DASH);
    ink.marks(Ink.Mark.DIAMOND, new double[] {n}, new double[] {um}, 6, Palette.INK);
    ink.text(
        n + " measured: " + Labels.number(um) + " \u00b5m",
        ink.x(n) + 10,
        ink.y(um) - 18,
        Ink.Anchor.LEFT,
        Palette.TICK,
        Palette.INK);
  }
}
