package org.padtrue.web.log;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.chart.ChartPoint;
import org.padtrue.drift.chart.ControlChart;
import org.padtrue.drift.chart.Signal;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.report.words.DriftWords;

/**
 * One series drawn: places in a picture of {@link #WIDTH} by {@code height}, paths as SVG has them.
 * Every dot is an article and leads to it.
 *
 * @param name of the series
 * @param unit shown
 * @param height of the picture
 * @param top where the plot begins, below the signals' numbers
 * @param tall height of the plot
 * @param bottom where the plot ends, above the strip of trims
 * @param base width of the base period, empty for none
 * @param centre height of the centre line, empty for none
 * @param band limits of the moving average, empty for none
 * @param average the moving average
 * @param bars one standard error either way
 * @param trend the robust slope, empty where none is clear
 * @param dots articles
 * @param observed what was observed where trims are in force: path of small crosses
 * @param steps changes found
 * @param flags numbered signals
 * @param trims the sum of the trims in force, as steps in the strip; empty for none
 * @param trimSteps what each step added
 * @param xTicks days
 * @param yTicks values
 */
public record SeriesPlot(
    String name,
    String unit,
    String height,
    String top,
    String tall,
    String bottom,
    String base,
    String centre,
    String band,
    String average,
    String bars,
    String trend,
    List<Dot> dots,
    String observed,
    List<Label> steps,
    List<Flag> flags,
    String trims,
    List<Label> trimSteps,
    List<Axis.Tick> xTicks,
    List<Axis.Tick> yTicks) {
  /** Width of the picture. */
  public static final int WIDTH = 760;

  static final double LEFT = 64;
  static final double RIGHT = WIDTH - 12;
  private static final double AIR = 10;
  private static final double FLAG = 22;
  private static final double PLOT = 200;
  private static final double STRIP = 46;
  private static final double CLEAR = 0.025;
  private static final int MOST_FLAGS = 12;
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  public SeriesPlot {
    dots = List.copyOf(dots);
    steps = List.copyOf(steps);
    flags = List.copyOf(flags);
    trimSteps = List.copyOf(trimSteps);
    xTicks = List.copyOf(xTicks);
    yTicks = List.copyOf(yTicks);
  }

  /** One article: its place, its number, what it is in words, whether a chart is out there. */
  public record Dot(String x, String y, String article, String title, boolean out) {}

  /** A text at a place; {@code left} when it stands to the left of it. */
  public record Label(String x, String y, String text, boolean left) {}

  /**
   * A signal.
   *
   * @param number 1-based in its series
   * @param sentence what was seen
   * @param article where it was seen
   */
  public record Flag(
      String x, String y, String tail, int number, String sentence, String since, String article) {}

  static SeriesPlot of(SeriesDrift d) {
    return new Drawing(d).plot();
  }

  static String time(Instant t) {
    return TIME.format(t);
  }

  /** Draws one series. */
  private static final class Drawing {
    private final SeriesDrift d;
    private final List<SeriesPoint> points;
    private final Amount amount;
    private final @Nullable ControlChart ewma;
    private final Axis x;
    private final Axis y;
    private final double top;

    Drawing(SeriesDrift d) {
      this.d = d;
      this.points = d.series().points();
      this.amount = Amount.of(d.series().unit());
      this.ewma = d.charts().stream().filter(c -> c.kind().equals("ewma")).findFirst().orElse(null);
      List<Double> t = new ArrayList<>();
      List<Double> v = new ArrayList<>();
      for (SeriesPoint p : points) {
        t.add(seconds(p));
        v.add(p.state() * amount.factor());
        v.add(p.value() * amount.factor());
      }
      if (ewma != null) {
        for (ChartPoint p : ewma.points()) {
          v.add(p.lower() * amount.factor());
          v.add(p.upper() * amount.factor());
        }
      }
      x = Axis.of(t, LEFT, RIGHT);
      top = AIR + FLAG * flagRows();
      y = Axis.of(v, top + PLOT, top);
    }

    private static double seconds(SeriesPoint p) {
      return p.at().toEpochMilli() / 1000.0;
    }

    private double px(int i) {
      return x.at(seconds(points.get(i)));
    }

    private String py(double stored) {
      return y.text(amount.factor() * stored);
    }

    SeriesPlot plot() {
      List<Label> trimSteps = new ArrayList<>();
      String trims = trims(trimSteps);
      double bottom = top + PLOT;
      double height = bottom + (trims.isEmpty() ? 0 : STRIP + 10) + 26;
      var base = d.base();
      return new SeriesPlot(
          SeriesWords.framed(d.name()),
          amount.unit(),
          Axis.place(height),
          Axis.place(top),
          Axis.place(PLOT),
          Axis.place(bottom),
          base == null ? "" : Axis.place(px(base.count() - 1) - LEFT),
          base == null ? "" : py(base.centre()),
          band(),
          average(),
          bars(),
          trend(),
          dots(),
          observed(),
          steps(),
          flags(),
          trims,
          trimSteps,
          x.times(7),
          y.ticks(5));
    }

    private String band() {
      if (ewma == null) {
        return "";
      }
      StringBuilder b = new StringBuilder();
      List<ChartPoint> c = ewma.points();
      for (int i = 0; i < c.size(); i++) {
        b.append(i == 0 ? "M" : "L").append(Axis.place(px(c.get(i).index()))).append(' ');
        b.append(py(c.get(i).upper()));
      }
      for (int i = c.size() - 1; i >= 0; i--) {
        b.append('L').append(Axis.place(px(c.get(i).index()))).append(' ');
        b.append(py(c.get(i).lower()));
      }
      return b.append('Z').toString();
    }

    private String average() {
      if (ewma == null) {
        return "";
      }
      StringBuilder b = new StringBuilder();
      for (ChartPoint c : ewma.points()) {
        b.append(b.length() == 0 ? "M" : "L").append(Axis.place(px(c.index()))).append(' ');
        b.append(py(c.value()));
      }
      return b.toString();
    }

    private String bars() {
      StringBuilder b = new StringBuilder();
      for (int i = 0; i < points.size(); i++) {
        SeriesPoint p = points.get(i);
        if (p.standardError() > 0) {
          double f = amount.factor();
          double high = Math.min(y.high(), f * (p.state() + p.standardError()));
          double low = Math.max(y.low(), f * (p.state() - p.standardError()));
          b.append('M').append(Axis.place(px(i))).append(' ').append(y.text(low));
          b.append('V').append(y.text(high));
        }
      }
      return b.toString();
    }

    private String trend() {
      TrendEffect t = d.trend();
      if (t == null || !d.slow().hasTrend() || !(t.pAdjusted() < CLEAR)) {
        return "";
      }
      double perSecond = t.perDay() / 86_400;
      int n = points.size();
      double[] level = new double[n];
      for (int i = 0; i < n; i++) {
        level[i] = d.adjusted().get(i) - perSecond * seconds(points.get(i));
      }
      Arrays.sort(level);
      double at = level[n / 2];
      return "M"
          + Axis.place(px(0))
          + " "
          + py(at + perSecond * seconds(points.get(0)))
          + "L"
          + Axis.place(px(n - 1))
          + " "
          + py(at + perSecond * seconds(points.get(n - 1)));
    }

    private List<Dot> dots() {
      List<Dot> all = new ArrayList<>();
      for (int i = 0; i < points.size(); i++) {
        SeriesPoint p = points.get(i);
        Set<String> out = out(i);
        String title =
            "Article "
                + p.article()
                + ", "
                + TIME.format(p.at())
                + ": "
                + amount.both(p.state(), p.standardError())
                + (p.trims() == 0 ? "" : ", observed " + amount.value(p.value(), p.standardError()))
                + (out.isEmpty() ? "" : "; beyond the limits: " + String.join(", ", out));
        all.add(new Dot(Axis.place(px(i)), py(p.state()), p.article(), title, !out.isEmpty()));
      }
      return all;
    }

    /** Which charts are out at a point, in words; the moving range has no say in signals. */
    private Set<String> out(int i) {
      Set<String> all = new TreeSet<>();
      for (ControlChart c : d.charts()) {
        if (!c.kind().equals("movingRange")
            && i < c.points().size()
            && c.points().get(i).index() == i
            && c.points().get(i).out()) {
          all.add(chart(c.kind()));
        }
      }
      return all;
    }

    private static String chart(String kind) {
      return switch (kind) {
        case "individuals" -> "this article alone";
        case "ewma" -> "EWMA";
        default -> "CUSUM";
      };
    }

    private String observed() {
      StringBuilder b = new StringBuilder();
      for (int i = 0; i < points.size(); i++) {
        SeriesPoint p = points.get(i);
        if (p.trims() != 0) {
          double at = px(i);
          double h = y.at(amount.factor() * p.value());
          b.append('M').append(Axis.place(at - 2.5)).append(' ').append(Axis.place(h - 2.5));
          b.append("l5 5m0-5l-5 5");
        }
      }
      return b.toString();
    }

    private List<Label> steps() {
      List<Label> all = new ArrayList<>();
      for (Change c : d.changes()) {
        double before = c.index() > 0 ? px(c.index() - 1) : px(c.index());
        double at = 0.5 * (before + px(c.index()));
        all.add(
            new Label(
                Axis.place(at),
                Axis.place(top + PLOT - 6),
                "step " + amount.both(c.size(), c.standardError()),
                at > 0.5 * (LEFT + RIGHT)));
      }
      return all;
    }

    private List<Flag> flags() {
      List<Flag> all = new ArrayList<>();
      int[] rows = rows();
      for (int k = 0; k < rows.length; k++) {
        Signal s = d.signals().get(k);
        double h = top - AIR - 2 - FLAG * rows[k];
        all.add(
            new Flag(
                Axis.place(px(s.index())),
                Axis.place(h),
                Axis.place(h + 9),
                k + 1,
                DriftWords.page(s.sentence()),
                TIME.format(s.since()),
                points.get(s.index()).article()));
      }
      return all;
    }

    private int flagRows() {
      return Arrays.stream(rows()).max().orElse(-1) + 1;
    }

    /** In which row, from below, each signal's number stands, so that none hides another. */
    private int[] rows() {
      int n = Math.min(MOST_FLAGS, d.signals().size());
      int[] row = new int[n];
      for (int k = 0; k < n; k++) {
        boolean[] taken = new boolean[n + 1];
        for (int m = 0; m < k; m++) {
          double apart = px(d.signals().get(k).index()) - px(d.signals().get(m).index());
          taken[row[m]] |= Math.abs(apart) < FLAG;
        }
        while (taken[row[k]]) {
          row[k]++;
        }
      }
      return row;
    }

    /** What was typed in between, as decimals. */
    private String added(SeriesPoint before, SeriesPoint after) {
      BigDecimal step =
          BigDecimal.valueOf(after.trims())
              .subtract(BigDecimal.valueOf(before.trims()))
              .multiply(BigDecimal.valueOf(amount.factor()))
              .stripTrailingZeros();
      return (step.signum() > 0 ? "+" : "") + step.toPlainString().replace('-', '\u2212');
    }

    /** The sum of the trims in force over the articles, in a strip of its own below. */
    private String trims(List<Label> labels) {
      double[] sum = new double[points.size()];
      List<Double> values = new ArrayList<>();
      values.add(0.0);
      boolean any = false;
      for (int i = 0; i < sum.length; i++) {
        sum[i] = amount.factor() * points.get(i).trims();
        any |= sum[i] != 0;
        values.add(sum[i]);
      }
      if (!any) {
        return "";
      }
      double head = top + PLOT + 10;
      Axis strip = Axis.of(values, head + STRIP - 4, head + 14);
      StringBuilder b = new StringBuilder();
      b.append('M').append(Axis.place(LEFT)).append(' ').append(strip.text(sum[0]));
      for (int i = 1; i < sum.length; i++) {
        if (sum[i] != sum[i - 1]) {
          double at = 0.5 * (px(i - 1) + px(i));
          b.append('H').append(Axis.place(at)).append('V').append(strip.text(sum[i]));
          labels.add(
              new Label(
                  Axis.place(at),
                  Axis.place(head + 10),
                  "trim " + added(points.get(i - 1), points.get(i)) + " " + amount.unit(),
                  at > 0.6 * RIGHT));
        }
      }
      return b.append('H').append(Axis.place(RIGHT)).toString();
    }
  }
}
