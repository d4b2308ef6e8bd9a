package org.padtrue.report.plot.ink;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import org.knowm.xchart.style.markers.Marker;

/** A mark in a legend, drawn as the layer draws it. */
final class KeyMark extends Marker {
  private final Ink.Mark mark;
  private final Color color;

  KeyMark(Ink.Mark mark, Color color) {
    this.mark = mark;
    this.color = color;
  }

  @Override
  public void paint(Graphics2D g, double x, double y, int size) {
    Path2D.Float p = new Path2D.Float();
    MarkPaths.append(p, mark, x, y, 4);
    g.setColor(color);
    if (mark.open()) {
      g.setStroke(Palette.LINE);
      g.draw(p);
    } else {
      g.fill(p);
    }
  }
}
