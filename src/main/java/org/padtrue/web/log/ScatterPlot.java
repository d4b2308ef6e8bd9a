package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.web.server.ShownNumbers;

/**
 * A series against temperature, or against the minutes since the start, with its level in time
 * taken off.
 *
 * @param title what it shows
 * @param effect how large the effect is, in words; after a plus-minus stands one standard error
 * @param xLabel of the axis below
 * @param unit of the other axis
 * @param dots articles
 * @param fitted line or curve
 * @param zero height of zero
 */
public record ScatterPlot(
    String title,
    String effect,
    String xLabel,
    String unit,
    List<SeriesPlot.Dot> dots,
    String fitted,
    String zero,
    List<Axis.Tick> xTicks,
    List<Axis.Tick> yTicks) {
  /** Width of the picture. */
  public static final int WIDTH = 480;

  /** Height of the picture. */
  public static final int HEIGHT = 320;

  private static final double LEFT = 58;
  private static final double RIGHT = WIDTH - 12;
  private static final double TOP = 12;
  private static final double BOTTOM = HEIGHT - 46;
  private static final int HALF_WINDOW = 8;
  private static final int STEPS = 60;

  public ScatterPlot {
    dots = List.copyOf(dots);
    xTicks = List.copyOf(xTicks);
    yTicks = List.copyOf(yTicks);
  }

  private record At(double x, double y, SeriesPoint point) {}

  static ScatterPlot temperature(SeriesDrift d, TemperatureEffect e) {
    Amount amount = Amount.of(d.series().unit());
    double mean = meanTemperature(d);
    double[] level = level(d);
    WarmUp w = d.warmUp();
    List<At> at = new ArrayList<>();
    List<SeriesPoint> points = d.series().points();
    for (int i = 0; i < points.size(); i++) {
      SeriesPoint p = points.get(i);
      if (Double.isFinite(p.temperatureC())) {
        double settling =
            w == null || Double.isNaN(p.minutesRunning())
                ? 0
                : w.amplitude() * Math.exp(-p.minutesRunning() / w.minutes());
        at.add(new At(p.temperatureC(), amount.factor() * (p.state() - settling - level[i]), p));
      }
    }
    Axis x = Axis.of(at.stream().map(At::x).toList(), LEFT, RIGHT);
    Axis y = Axis.of(at.stream().map(At::y).toList(), BOTTOM, TOP);
    double slope = amount.factor() * e.slope();
    // the part of the line that is inside the plot
    double from = x.low();
    double to = x.high();
    if (slope != 0) {
      double one = mean + y.low() / slope;
      double two = mean + y.high() / slope;
      from = Math.max(from, Math.min(one, two));
      to = Math.min(to, Math.max(one, two));
    }
    String line =
        from < to
            ? "M"
                + x.text(from)
                + " "
                + y.text(slope * (from - mean))
                + "L"
                + x.text(to)
                + " "
                + y.text(slope * (to - mean))
            : "";
    return new ScatterPlot(
        SeriesWords.framed(d.name()) + " against temperature",
        amount.both(e.slope(), e.standardError()) + " per kelvin",
        "temperature, \u00b0C",
        amount.unit(),
        dots(at, x, y, amount, " \u00b0C"),
        line,
        y.text(0),
        x.ticks(6),
        y.ticks(5));
  }

  static ScatterPlot warmUp(SeriesDrift d, WarmUp w) {
    Amount amount = Amount.of(d.series().unit());
    TemperatureEffect t = d.temperature();
    double mean = meanTemperature(d);
    double[] level = level(d);
    double longest = Math.max(60, 10 * w.minutes());
    List<At> at = new ArrayList<>();
    List<SeriesPoint> points = d.series().points();
    for (int i = 0; i < points.size(); i++) {
      SeriesPoint p = points.get(i);
      if (p.minutesRunning() <= longest) {
        // as in the fit: only where temperature is part of what explains the series
        boolean warm = t != null && d.temperatureChosen() && Double.isFinite(p.temperatureC());
        double off = warm && t != null ? t.slope() * (p.temperatureC() - mean) : 0;
        at.add(new At(p.minutesRunning(), amount.factor() * (p.state() - off - level[i]), p));
      }
    }
    List<Double> reach = new ArrayList<>(at.stream().map(At::y).toList());
    reach.add(amount.factor() * w.amplitude());
    reach.add(0.0);
    List<Double> minutes = new ArrayList<>(at.stream().map(At::x).toList());
    minutes.add(0.0);
    Axis x = Axis.of(minutes, LEFT, RIGHT);
    Axis y = Axis.of(reach, BOTTOM, TOP);
    StringBuilder b = new StringBuilder();
    for (int i = 0; i <= STEPS; i++) {
      double m = x.high() * i / STEPS;
      double v = amount.factor() * w.amplitude() * Math.exp(-m / w.minutes());
      b.append(i == 0 ? "M" : "L").append(x.text(m)).append(' ').append(y.text(v));
    }
    return new ScatterPlot(
        SeriesWords.framed(d.name()) + " after the start",
        amount.both(w.amplitude(), w.amplitudeSe())
            + " at the start, settling with a time constant of "
            + new Amount(1, "min").both(w.minutes(), w.minutesSe()).substring(1),
        "minutes since the machine was started",
        amount.unit(),
        dots(at, x, y, amount, " min"),
        b.toString(),
        y.text(0),
        x.ticks(6),
        y.ticks(5));
  }

  private static List<SeriesPlot.Dot> dots(
      List<At> at, Axis x, Axis y, Amount amount, String xUnit) {
    List<SeriesPlot.Dot> all = new ArrayList<>();
    for (At a : at) {
      all.add(
          new SeriesPlot.Dot(
              x.text(a.x),
              y.text(a.y),
              a.point.article(),
              "Article "
                  + a.point.article()
                  + ", "
                  + SeriesPlot.time(a.point.at())
                  + ": "
                  + ShownNumbers.number(a.x, 1)
                  + xUnit
                  + ", "
                  + new Amount(1, amount.unit())
                      .both(a.y, amount.factor() * a.point.standardError()),
              false));
    }
    return all;
  }

  private static double meanTemperature(SeriesDrift d) {
    return d.series().points().stream()
        .mapToDouble(SeriesPoint::temperatureC)
        .filter(Double::isFinite)
        .average()
        .orElse(0);
  }

  /** Level of each point: running median with temperature and warm-up taken off. */
  private static double[] level(SeriesDrift d) {
    int n = d.adjusted().size();
    double[] level = new double[n];
    for (int i = 0; i < n; i++) {
      double[] w =
          d
              .adjusted()
              .subList(Math.max(0, i - HALF_WINDOW), Math.min(n, i + HALF_WINDOW + 1))
              .stream()
              .mapToDouble(Double::doubleValue)
              .toArray();
      Arrays.sort(w);
      int m = w.length;
      level[i] = m % 2 == 1 ? w[m / 2] : 0.5 * (w[m / 2 - 1] + w[m / 2]);
    }
    return level;
  }
}
