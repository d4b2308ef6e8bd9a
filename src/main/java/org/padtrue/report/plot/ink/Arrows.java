package org.padtrue.report.plot.ink;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.geom.Path2D;

/**
 * Arrows: foot in axis units, vector in micrometres, one scale for all. Shafts are one path, heads
 * another.
 */
public final class Arrows {
  private static final double HEAD_MOST = 7;
  private static final double HEAD_SHARE = 0.45;
  private static final double HEAD_HALF_WIDTH = 0.38;
  private static final double DOT_BELOW = 1.5;

  private final Ink ink;
  private final double pixelsPerUm;
  private final double mostPixels;
  private final Path2D.Float shafts = new Path2D.Float();
  private final Path2D.Float heads = new Path2D.Float(Path2D.WIND_NON_ZERO);
  private boolean any;

  /**
   * A set of arrows.
   *
   * @param ink where to
   * @param pixelsPerUm scale
   * @param mostPixels longer arrows are cut to this length, px
   */
  public Arrows(Ink ink, double pixelsPerUm, double mostPixels) {
    this.ink = ink;
    this.pixelsPerUm = pixelsPerUm;
    this.mostPixels = mostPixels;
  }

  /** Adds one arrow; y up is plus. */
  public void add(double xMm, double yMm, double dxUm, double dyUm) {
    addPixels(ink.x(xMm), ink.y(yMm), dxUm * pixelsPerUm, -dyUm * pixelsPerUm);
  }

  /** Adds an arrow given in pixels, y down. */
  public void addPixels(double x, double y, double dx, double dy) {
    double full = Math.hypot(dx, dy);
    if (!Double.isFinite(full)) {
      return;
    }
    any = true;
    double length = Math.min(full, mostPixels);
    if (length < DOT_BELOW) {
      MarkPaths.append(heads, Ink.Mark.DOT, x, y, 1.2);
      return;
    }
    double ux = dx / full;
    double uy = dy / full;
    double head = Math.min(HEAD_MOST, HEAD_SHARE * length + 1.5);
    double tipX = x + ux * length;
    double tipY = y + uy * length;
    double neckX = tipX - ux * head;
    double neckY = tipY - uy * head;
    if (length > head) {
      MarkPaths.open(shafts, x, y, neckX, neckY);
    }
    double wx = -uy * head * HEAD_HALF_WIDTH;
    double wy = ux * head * HEAD_HALF_WIDTH;
    MarkPaths.polygon(heads, tipX, tipY, neckX + wx, neckY + wy, neckX - wx, neckY - wy);
  }

  public void paint(Color color, float width) {
    if (any) {
      ink.stroke(
          shafts, color, new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
      ink.fill(heads, color);
    }
  }
}
