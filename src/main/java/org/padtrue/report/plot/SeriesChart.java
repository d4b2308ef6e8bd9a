package org.padtrue.report.plot;

import java.awt.Color;
import java.awt.geom.Path2D;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.chart.ChartPoint;
import org.padtrue.drift.chart.ControlChart;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;
import org.padtrue.report.plot.ink.TimeAxis;

/** One series over time with the limits of its moving average. */
final class SeriesChart {
  private static final int WIDTH = 980;
  private static final int HEIGHT = 330;
  private static final double CLEAR = 0.025;
  private static final Color BAND = Palette.faint(Palette.SKY, 60);
  private static final Color BASE = Palette.faint(Palette.QUIET, 22);
  private static final Color BAR = Palette.faint(Palette.QUIET, 90);

  private final SeriesDrift d;
  private final List<SeriesPoint> points;
  private final SeriesScale scale;
  private final TimeAxis time;

  private SeriesChart(SeriesDrift d) {
    this.d = d;
    this.points = d.series().points();
    this.scale = SeriesScale.of(d);
    this.time = TimeAxis.of(points);
  }

  static ChartFrame frame(SeriesDrift d) {
    return new SeriesChart(d).build();
  }

  private ChartFrame build() {
    @Nullable ControlChart ewma = chart("ewma");
    ChartFrame f =
        new ChartFrame(
            WIDTH,
            HEIGHT,
            Labels.cut(SeriesWords.framed(d.name()), 60),
            time.title(),
            "state (" + scale.unit() + ")",
            time.range(),
            range(ewma));
    time.label(f);
    f.styler().setYAxisTickMarkSpacingHint(45);
    f.draw(this::base);
    if (ewma != null) {
      f.draw(ink -> band(ink, ewma));
    }
    f.draw(this::trims);
    f.draw(this::bars);
    boolean trimmed = points.stream().anyMatch(p -> p.trims() != 0);
    if (trimmed) {
      f.draw(this::observed);
      f.key("observed, trims entered", Ink.Mark.RING, Palette.OUTLINE);
    }
    f.draw(this::dots);
    f.key("state of the machine", Ink.Mark.DOT, Palette.INK);
    if (ewma != null) {
      f.draw(ink -> average(ink, ewma));
      f.key("EWMA and its limits", Ink.Mark.SQUARE, Palette.SKY);
      if (ewma.signals()) {
        f.key("beyond the limits", Ink.Mark.DIAMOND, Palette.LIMIT);
      }
    }
    if (d.trend() != null && d.slow().hasTrend() && d.trend().pAdjusted() < CLEAR) {
      f.draw(this::trend);
      f.key("trend per day", Ink.Mark.LINE, Palette.VERMILION);
    }
    f.draw(this::changes);
    return f;
  }

  private @Nullable ControlChart chart(String kind) {
    return d.charts().stream().filter(c -> c.kind().equals(kind)).findFirst().orElse(null);
  }

  private Range range(@Nullable ControlChart ewma) {
    List<Double> v = new ArrayList<>();
    for (SeriesPoint p : points) {
      v.add(scale.factor() * p.state());
      v.add(scale.factor() * p.value());
    }
    if (ewma != null) {
      for (ChartPoint p : ewma.points()) {
        v.add(scale.factor() * p.lower());
        v.add(scale.factor() * p.upper());
      }
    }
    return SeriesScale.range(v);
  }

  private double x(int i) {
    return time.at(points.get(i).at());
  }

  private void base(Ink ink) {
    if (d.base() != null) {
      double to = x(d.base().count() - 1);
      ink.block(ink.xRange().low(), ink.yRange().low(), to, ink.yRange().high(), BASE);
      ink.text(
          "base period",
          ink.area().getMinX() + 6,
          ink.area().getMinY() + 10,
          Ink.Anchor.LEFT,
          Palette.SMALL,
          Palette.QUIET);
      double c = scale.factor() * d.base().centre();
      ink.line(ink.xRange().low(), c, ink.xRange().high(), c, Palette.OUTLINE, Palette.HAIR);
    }
  }

  private void band(Ink ink, ControlChart ewma) {
    Path2D.Float p = new Path2D.Float();
    List<ChartPoint> c = ewma.points();
    for (int i = 0; i < c.size(); i++) {
      move(p, ink, i, c.get(i).upper(), i == 0);
    }
    for (int i = c.size() - 1; i >= 0; i--) {
      move(p, ink, i, c.get(i).lower(), false);
    }
    p.closePath();
    ink.fill(p, BAND);
  }

  private void move(Path2D.Float p, Ink ink, int i, double value, boolean start) {
    float px = Ink.tenth(ink.x(x(i)));
    float py = Ink.tenth(ink.y(scale.factor() * value));
    if (start) {
      p.moveTo(px, py);
    } else {
      p.lineTo(px, py);
    }
  }

  private void average(Ink ink, ControlChart ewma) {
    Path2D.Float p = new Path2D.Float();
    List<Double> outX = new ArrayList<>();
    List<Double> outY = new ArrayList<>();
    for (ChartPoint c : ewma.points()) {
      move(p, ink, c.index(), c.value(), c.index() == 0);
      if (c.out()) {
        outX.add(x(c.index()));
        outY.add(scale.factor() * c.value());
      }
    }
    ink.stroke(p, Palette.BLUE, new java.awt.BasicStroke(2f));
    ink.marks(
        Ink.Mark.DIAMOND,
        outX.stream().mapToDouble(Double::doubleValue).toArray(),
        outY.stream().mapToDouble(Double::doubleValue).toArray(),
        3.6,
        Palette.LIMIT);
  }

  /** The robust slope through the middle of the points. */
  private void trend(Ink ink) {
    if (d.trend() == null) {
      return;
    }
    double slope = scale.factor() * d.trend().perDay();
    double[] level = new double[points.size()];
    for (int i = 0; i < level.length; i++) {
      level[i] = scale.factor() * d.adjusted().get(i) - slope * x(i);
    }
    java.util.Arrays.sort(level);
    double at = level[level.length / 2];
    double from = x(0);
    double to = x(points.size() - 1);
    ink.line(from, at + slope * from, to, at + slope * to, Palette.VERMILION, Palette.DASH);
  }

  // Trims in force change: the sum of what was added, written where it changed.
  private void trims(Ink ink) {
    for (int i = 1; i < points.size(); i++) {
      // what was typed, as decimals
      BigDecimal step =
          BigDecimal.valueOf(points.get(i).trims())
              .subtract(BigDecimal.valueOf(points.get(i - 1).trims()));
      if (step.signum() != 0) {
        String text = number(scale.factor() * step.doubleValue());
        mark(ink, 0.5 * (x(i - 1) + x(i)), "trim " + text, Palette.GREEN, 0);
      }
    }
  }

  private void changes(Ink ink) {
    for (Change c : d.changes()) {
      double at = 0.5 * (time.at(c.previous()) + time.at(c.at()));
      // no more digits than its standard error bears
      double unit = Math.pow(10, Math.floor(Math.log10(scale.factor() * c.standardError())));
      double size =
          c.standardError() > 0 ? Math.rint(scale.factor() * c.size() / unit) * unit : c.size();
      mark(ink, at, "step " + number(size), Palette.LIMIT, 1);
    }
  }

  private String number(double v) {
    return (v > 0 ? "+" : "") + Labels.number(v).replace('-', '\u2212') + " " + scale.unit();
  }

  private static void mark(Ink ink, double at, String text, Color color, int row) {
    ink.line(at, ink.yRange().low(), at, ink.yRange().high(), color, Palette.DASH);
    boolean left = ink.x(at) > ink.area().getCenterX();
    ink.text(
        text,
        ink.x(at) + (left ? -5 : 5),
        ink.area().getMinY() + 10 + 14 * row,
        left ? Ink.Anchor.RIGHT : Ink.Anchor.LEFT,
        Palette.SMALL,
        color);
  }

  private void bars(Ink ink) {
    Path2D.Float p = new Path2D.Float();
    for (int i = 0; i < points.size(); i++) {
      SeriesPoint s = points.get(i);
      if (s.standardError() > 0) {
        float px = Ink.tenth(ink.x(x(i)));
        double high =
            Math.min(ink.yRange().high(), scale.factor() * (s.state() + s.standardError()));
        double low = Math.max(ink.yRange().low(), scale.factor() * (s.state() - s.standardError()));
        p.moveTo(px, Ink.tenth(ink.y(low)));
        p.lineTo(px, Ink.tenth(ink.y(high)));
      }
    }
    ink.stroke(p, BAR, Palette.HAIR);
  }

  private void observed(Ink ink) {
    List<SeriesPoint> moved = points.stream().filter(p -> p.trims() != 0).toList();
    ink.marks(
        Ink.Mark.RING,
        moved.stream().mapToDouble(p -> time.at(p.at())).toArray(),
        moved.stream().mapToDouble(p -> scale.factor() * p.value()).toArray(),
        2.4,
        Palette.OUTLINE);
  }

  /** Dots by weight, in three sizes. */
  private void dots(Ink ink) {
    double least =
        points.stream()
            .mapToDouble(SeriesPoint::standardError)
            .filter(v -> v > 0)
            .min()
            .orElse(Double.NaN);
    for (int size = 0; size < 3; size++) {
      List<SeriesPoint> some = new ArrayList<>();
      for (SeriesPoint p : points) {
        double ratio = least / p.standardError();
        int own = !(ratio < 0.8) ? 2 : ratio > 0.4 ? 1 : 0;
        if (own == size) {
          some.add(p);
        }
      }
      ink.marks(
          Ink.Mark.DOT,
          some.stream().mapToDouble(p -> time.at(p.at())).toArray(),
          some.stream().mapToDouble(p -> scale.factor() * p.state()).toArray(),
          1.6 + 0.7 * size,
          Palette.INK);
    }
  }
}
