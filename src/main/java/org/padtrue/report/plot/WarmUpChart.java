package org.padtrue.report.plot;

import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** A series against the minutes since the start, with drift in time and temperature taken off. */
final class WarmUpChart {
  private static final int WIDTH = 560;
  private static final int HEIGHT = 380;
  private static final int STEPS = 120;

  private WarmUpChart() {}

  static ChartFrame frame(SeriesDrift d) {
    WarmUp w = d.warmUp();
    if (w == null) {
      throw new IllegalArgumentException(d.name() + " has no warm-up");
    }
    SeriesScale scale = SeriesScale.of(d);
    List<Double> m = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    points(d, Math.max(60, 10 * w.minutes()), scale.factor(), m, y);
    List<Double> reach = new ArrayList<>(y);
    reach.add(scale.factor() * w.amplitude());
    reach.add(0.0);
    Range x = new Range(0, 1.03 * m.stream().mapToDouble(Double::doubleValue).max().orElse(60));
    ChartFrame f =
        new ChartFrame(
            WIDTH,
            HEIGHT,
            Labels.cut(SeriesWords.name(d.name()), 40) + " after the start",
            "minutes since the machine was started",
            "state, level taken off (" + scale.unit() + ")",
            x,
            SeriesScale.range(reach));
    f.draw(ink -> ink.line(0, 0, ink.xRange().high(), 0, Palette.OUTLINE, Palette.HAIR));
    f.draw(
        ink ->
            ink.marks(
                Ink.Mark.DOT,
                TemperatureChart.array(m),
                TemperatureChart.array(y),
                2.8,
                Palette.faint(Palette.INK, 150)));
    f.draw(ink -> curve(ink, scale.factor() * w.amplitude(), w.minutes()));
    f.draw(
        ink ->
            ink.text(
                String.format(
                        Locale.ROOT,
                        "%+.3g \u00b1 %.2g %s, time constant %.0f \u00b1 %.0f min",
                        scale.factor() * w.amplitude(),
                        scale.factor() * w.amplitudeSe(),
                        scale.unit(),
                        w.minutes(),
                        w.minutesSe())
                    .replace('-', '\u2212'),
                ink.area().getMaxX() - 8,
                ink.area().getMinY() + 12,
                Ink.Anchor.RIGHT,
                Palette.TICK,
                Palette.BLUE));
    return f;
  }

  private static void points(
      SeriesDrift d, double longest, double factor, List<Double> m, List<Double> y) {
    TemperatureEffect t = d.temperature();
    List<SeriesPoint> points = d.series().points();
    double meanT =
        points.stream()
            .mapToDouble(SeriesPoint::temperatureC)
            .filter(Double::isFinite)
            .average()
            .orElse(0);
    double[] level = SeriesScale.level(d);
    for (int i = 0; i < points.size(); i++) {
      SeriesPoint p = points.get(i);
      if (p.minutesRunning() <= longest) {
        // as in the fit: only where temperature is part of what explains the series
        boolean warm = t != null && d.temperatureChosen() && Double.isFinite(p.temperatureC());
        double off = warm && t != null ? t.slope() * (p.temperatureC() - meanT) : 0;
        m.add(p.minutesRunning());
        y.add(factor * (p.state() - off - level[i]));
      }
    }
  }

  private static void curve(Ink ink, double amplitude, double tau) {
    Path2D.Float p = new Path2D.Float();
    for (int i = 0; i <= STEPS; i++) {
      double x = ink.xRange().high() * i / STEPS;
      float px = Ink.tenth(ink.x(x));
      float py = Ink.tenth(ink.y(amplitude * Math.exp(-x / tau)));
      if (i == 0) {
        p.moveTo(px, py);
      } else {
        p.lineTo(px, py);
      }
    }
    ink.stroke(p, Palette.BLUE, new java.awt.BasicStroke(2f));
  }
}
