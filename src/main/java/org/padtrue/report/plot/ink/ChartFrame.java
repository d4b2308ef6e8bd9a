package org.padtrue.report.plot.ink;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.XYStyler;

/** An XChart with axes, title and legend in the house style, ready for layers. */
public final class ChartFrame {
  private final XYChart chart;
  private final List<Consumer<Ink>> drawings = new ArrayList<>();
  private Range x;
  private Range y;

  public ChartFrame(
      int width, int height, String title, String xTitle, String yTitle, Range x, Range y) {
    this(width, height, 0, title, xTitle, yTitle, x, y);
  }

  /** The same with free room at the left, pixels, part of the width. */
  public ChartFrame(
      int width,
      int height,
      int room,
      String title,
      String xTitle,
      String yTitle,
      Range x,
      Range y) {
    chart =
        new RoomyChart(
            new XYChartBuilder()
                .width(width)
                .height(height)
                .title(title)
                .xAxisTitle(xTitle)
                .yAxisTitle(yTitle),
            room);
    this.x = x;
    this.y = y;
    style(chart.getStyler());
    apply();
  }

  private static void style(XYStyler s) {
    s.setDefaultSeriesRenderStyle(XYSeries.XYSeriesRenderStyle.Scatter);
    s.setChartBackgroundColor(Palette.PAPER);
    s.setPlotBackgroundColor(Palette.PAPER);
    s.setPlotBorderColor(Palette.OUTLINE);
    s.setPlotBorderVisible(true);
    s.setPlotContentSize(1);
    s.setPlotGridLinesColor(Palette.GRID);
    s.setPlotGridLinesStroke(new BasicStroke(0.8f));
    s.setChartTitleBoxVisible(false);
    s.setChartTitleFont(Palette.TITLE);
    s.setChartFontColor(Palette.INK);
    s.setChartTitlePadding(6);
    s.setChartPadding(10);
    s.setAxisTitleFont(Palette.AXIS);
    s.setAxisTickLabelsFont(Palette.TICK);
    s.setAxisTickLabelsColor(Palette.INK);
    s.setAxisTickMarksColor(Palette.OUTLINE);
    s.setXAxisTickMarkSpacingHint(70);
    s.setYAxisTickMarkSpacingHint(70);
    s.setPlotMargin(0);
    s.setLegendVisible(false);
    s.setLegendBorderColor(Palette.PAPER);
    s.setLegendFont(Palette.TICK);
    s.setLegendPosition(Styler.LegendPosition.OutsideS);
    s.setLegendLayout(Styler.LegendLayout.Horizontal);
    s.setLegendPadding(14);
    s.setMarkerSize(9);
    s.setLocale(Locale.ROOT);
    s.setDecimalPattern("#,##0.###");
    s.setAntiAlias(true);
  }

  private void apply() {
    XYStyler s = chart.getStyler();
    s.setXAxisMin(x.low());
    s.setXAxisMax(x.high());
    s.setYAxisMin(y.low());
    s.setYAxisMax(y.high());
  }

  public XYStyler styler() {
    return chart.getStyler();
  }

  /** An entry of the legend. */
  public ChartFrame key(String text, Ink.Mark mark, Color color) {
    XYSeries s = chart.addSeries(text, new double[] {Double.NaN}, new double[] {Double.NaN});
    s.setMarker(new KeyMark(mark, color));
    s.setMarkerColor(color);
    chart.getStyler().setLegendVisible(true);
    return this;
  }

  public ChartFrame draw(Consumer<Ink> drawing) {
    drawings.add(drawing);
    return this;
  }

  /** Height that the chart would need for equal scales on both axes, pixels. */
  public int heightForEqualScale() {
    layOut();
    double width =
        Math.abs(chart.getScreenXFromChart(x.high()) - chart.getScreenXFromChart(x.low()));
    double height =
        Math.abs(chart.getScreenYFromChart(y.high()) - chart.getScreenYFromChart(y.low()));
    return (int) Math.round(chart.getHeight() - height + width * y.length() / x.length());
  }

  /** Widens one axis so that a millimetre is as long along x as along y. */
  public ChartFrame equalScale() {
    layOut();
    double perX =
        Math.abs(chart.getScreenXFromChart(x.high()) - chart.getScreenXFromChart(x.low()))
            / x.length();
    double perY =
        Math.abs(chart.getScreenYFromChart(y.high()) - chart.getScreenYFromChart(y.low()))
            / y.length();
    if (perX > perY) {
      x = widened(x, perX / perY);
    } else {
      y = widened(y, perY / perX);
    }
    apply();
    return this;
  }

  /** The chart with its layers. */
  public XYChart finish() {
    needSeries();
    for (Consumer<Ink> d : drawings) {
      chart.addAnnotation(new Layer(x, y, d));
    }
    return chart;
  }

  /** XChart wants a series even where layers draw everything. */
  private void needSeries() {
    if (chart.getSeriesMap().isEmpty()) {
      XYSeries s = chart.addSeries("-", new double[] {Double.NaN}, new double[] {Double.NaN});
      s.setShowInLegend(false);
    }
  }

  /** Paints into nothing: XChart knows its layout only after painting. */
  private void layOut() {
    needSeries();
    Graphics2D g = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB).createGraphics();
    chart.paint(g, chart.getWidth(), chart.getHeight());
    g.dispose();
  }

  private static Range widened(Range r, double factor) {
    double middle = (r.low() + r.high()) / 2;
    double half = r.length() / 2 * factor;
    return new Range(middle - half, middle + half);
  }
}
