package org.padtrue.report.plot;

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

/** A series against temperature, with drift in time and warm-up taken off. */
final class TemperatureChart {
  private static final int WIDTH = 560;
  private static final int HEIGHT = 380;

  private TemperatureChart() {}

  static ChartFrame frame(SeriesDrift d) {
    SeriesScale scale = SeriesScale.of(d);
    double[] level = SeriesScale.level(d);
    List<Double> t = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    WarmUp w = d.warmUp();
    List<SeriesPoint> points = d.series().points();
    double meanT =
        points.stream()
            .mapToDouble(SeriesPoint::temperatureC)
            .filter(Double::isFinite)
            .average()
            .orElse(0);
    for (int i = 0; i < points.size(); i++) {
      SeriesPoint p = points.get(i);
      if (Double.isFinite(p.temperatureC())) {
        double settling =
            w == null || Double.isNaN(p.minutesRunning())
                ? 0
                : w.amplitude() * Math.exp(-p.minutesRunning() / w.minutes());
        t.add(p.temperatureC());
        y.add(scale.factor() * (p.state() - settling - level[i]));
      }
    }
    ChartFrame f =
        new ChartFrame(
            WIDTH,
            HEIGHT,
            Labels.cut(SeriesWords.name(d.name()), 40) + " against temperature",
            "temperature (\u00b0C)",
            "state, level taken off (" + scale.unit() + ")",
            SeriesScale.range(t),
            SeriesScale.range(y));
    f.draw(
        ink ->
            ink.line(ink.xRange().low(), 0, ink.xRange().high(), 0, Palette.OUTLINE, Palette.HAIR));
    f.draw(
        ink -> ink.marks(Ink.Mark.DOT, array(t), array(y), 2.8, Palette.faint(Palette.INK, 150)));
    TemperatureEffect e = d.temperature();
    if (e != null) {
      f.draw(ink -> line(ink, scale.factor() * e.slope(), meanT));
      f.draw(
          ink ->
              ink.text(
                  String.format(
                          Locale.ROOT,
                          "%+.3g %s per K (95 %%: %+.3g to %+.3g)",
                          scale.factor() * e.slope(),
                          scale.unit(),
                          scale.factor() * e.low(),
                          scale.factor() * e.high())
                      .replace('-', '\u2212'),
                  ink.area().getMinX() + 8,
                  ink.area().getMinY() + 12,
                  Ink.Anchor.LEFT,
                  Palette.TICK,
                  Palette.BLUE));
    }
    return f;
  }

  private static void line(Ink ink, double slope, double meanT) {
    double from = ink.xRange().low();
    double to = ink.xRange().high();
    double y0 = slope * (from - meanT);
    double y1 = slope * (to - meanT);
    if (Math.max(y0, y1) <= ink.yRange().high() && Math.min(y0, y1) >= ink.yRange().low()) {
      ink.line(from, y0, to, y1, Palette.BLUE, new java.awt.BasicStroke(2f));
    }
  }

  static double[] array(List<Double> v) {
    return v.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
