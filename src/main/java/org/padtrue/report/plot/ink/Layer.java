package org.padtrue.report.plot.ink;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.function.Consumer;
import org.knowm.xchart.internal.chartpart.Annotation;

/** Draws on a chart's axes what XChart has no series for. */
final class Layer extends Annotation {
  private final Consumer<Ink> drawing;
  private final Range x;
  private final Range y;

  /**
   * A layer.
   *
   * @param x range of the x axis
   * @param y range of the y axis
   * @param drawing draws in the axes' units
   */
  Layer(Range x, Range y, Consumer<Ink> drawing) {
    super(false);
    this.x = x;
    this.y = y;
    this.drawing = drawing;
    this.bounds = new Rectangle2D.Double();
  }

  @Override
  public void paint(Graphics2D g) {
    double left = chart.getScreenXFromChart(x.low());
    double right = chart.getScreenXFromChart(x.high());
    double bottom = chart.getScreenYFromChart(y.low());
    double top = chart.getScreenYFromChart(y.high());
    drawing.accept(new Ink(g, x, y, new Rectangle2D.Double(left, top, right - left, bottom - top)));
  }
}
