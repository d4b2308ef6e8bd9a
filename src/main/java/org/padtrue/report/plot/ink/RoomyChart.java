package org.padtrue.report.plot.ink;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;

/**
 * A chart with free room at its left, where a layer may write names of rows: XChart itself labels
 * ticks only.
 */
final class RoomyChart extends XYChart {
  private final int room;

  /**
   * A chart.
   *
   * @param builder size and titles
   * @param room free pixels at the left, part of the width
   */
  RoomyChart(XYChartBuilder builder, int room) {
    super(builder);
    this.room = room;
  }

  @Override
  public void paint(Graphics2D g, int width, int height) {
    if (room == 0) {
      super.paint(g, width, height);
      return;
    }
    g.setColor(Palette.PAPER);
    g.fill(new Rectangle2D.Double(0, 0, room, height));
    g.translate(room, 0);
    super.paint(g, width - room, height);
    g.translate(-room, 0);
    setWidth(width);
  }
}
