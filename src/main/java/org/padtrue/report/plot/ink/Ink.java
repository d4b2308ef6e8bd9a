package org.padtrue.report.plot.ink;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.font.FontRenderContext;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/**
 * Draws in the units of a chart's axes. Marks of one colour are gathered into few paths, which
 * keeps an SVG of thousands of marks small; text becomes outlines, so that no viewer needs the
 * font.
 */
public final class Ink {
  /** Marks of one colour are spread over this many paths, so that translucent marks add up. */
  private static final int DEPTH = 8;

  private static final FontRenderContext FONTS = new FontRenderContext(null, true, true);

  private final Graphics2D g;
  private final Range xRange;
  private final Range yRange;
  private final Rectangle2D area;

  Ink(Graphics2D g, Range x, Range y, Rectangle2D area) {
    this.g = g;
    this.xRange = x;
    this.yRange = y;
    this.area = area;
  }

  /** The plot's area on screen, pixels. */
  public Rectangle2D area() {
    return area;
  }

  public Range xRange() {
    return xRange;
  }

  public Range yRange() {
    return yRange;
  }

  public double x(double v) {
    return area.getMinX() + (v - xRange.low()) / xRange.length() * area.getWidth();
  }

  public double y(double v) {
    return area.getMaxY() - (v - yRange.low()) / yRange.length() * area.getHeight();
  }

  /** Shape of a mark about (0, 0), pixels. */
  public enum Mark {
    DOT,
    RING,
    SQUARE,
    TRIANGLE,
    CROSS,
    DIAMOND,
    ARROW,
    LINE;

    /** True for a mark that is drawn, not filled. */
    boolean open() {
      return this == RING || this == CROSS || this == LINE;
    }
  }

  /**
   * Marks; those outside the axes are left out. Filled, but rings and crosses are drawn as lines.
   */
  public void marks(Mark mark, double[] xs, double[] ys, double radius, Color color) {
    boolean lines = mark.open();
    int paths = color.getAlpha() < 255 ? DEPTH : 1;
    Path2D.Float[] p = new Path2D.Float[paths];
    for (int i = 0; i < xs.length; i++) {
      if (xRange.contains(xs[i]) && yRange.contains(ys[i])) {
        int k = i % paths;
        if (p[k] == null) {
          p[k] = new Path2D.Float(Path2D.WIND_NON_ZERO);
        }
        MarkPaths.append(p[k], mark, x(xs[i]), y(ys[i]), radius);
      }
    }
    g.setColor(color);
    for (Path2D.Float path : p) {
      if (path != null) {
        if (lines) {
          stroke(path, color, Palette.LINE);
        } else {
          g.fill(path);
        }
      }
    }
  }

  /** Squares that do not overlap: one path whatever the colour. */
  void squares(double[] xs, double[] ys, double half, Color color) {
    if (xs.length == 0) {
      return;
    }
    Path2D.Float p = new Path2D.Float(Path2D.WIND_NON_ZERO);
    for (int i = 0; i < xs.length; i++) {
      MarkPaths.append(p, Mark.SQUARE, x(xs[i]), y(ys[i]), half);
    }
    fill(p, color);
  }

  public void line(double x1, double y1, double x2, double y2, Color color, BasicStroke stroke) {
    Path2D.Float p = new Path2D.Float();
    p.moveTo(tenth(x(x1)), tenth(y(y1)));
    p.lineTo(tenth(x(x2)), tenth(y(y2)));
    stroke(p, color, stroke);
  }

  public void box(double x1, double y1, double x2, double y2, Color color, BasicStroke stroke) {
    stroke(rectangle(x1, y1, x2, y2), color, stroke);
  }

  public void block(double x1, double y1, double x2, double y2, Color color) {
    g.setColor(color);
    g.fill(rectangle(x1, y1, x2, y2));
  }

  public void ellipse(double cx, double cy, double rx, double ry, Color color, BasicStroke stroke) {
    Path2D.Float p = new Path2D.Float();
    MarkPaths.oval(
        p,
        x(cx),
        y(cy),
        rx / xRange.length() * area.getWidth(),
        ry / yRange.length() * area.getHeight());
    stroke(p, color, stroke);
  }

  /** A path in pixels. */
  public void stroke(Shape p, Color color, BasicStroke stroke) {
    g.setColor(color);
    g.setStroke(stroke);
    g.draw(p);
  }

  /** A filled path in pixels. */
  public void fill(Shape p, Color color) {
    g.setColor(color);
    g.fill(p);
  }

  /** Where a text stands from its point. */
  public enum Anchor {
    LEFT,
    CENTRE,
    RIGHT
  }

  /** Text at a point in pixels, its middle line on the point. */
  public void text(String s, double px, double py, Anchor anchor, Font font, Color color) {
    if (s.isEmpty()) {
      return;
    }
    TextLayout layout = new TextLayout(s, font, FONTS);
    double w = layout.getAdvance();
    double left = anchor == Anchor.LEFT ? px : anchor == Anchor.RIGHT ? px - w : px - w / 2;
    double base = py + (layout.getAscent() - layout.getDescent()) / 2;
    g.setColor(color);
    g.fill(layout.getOutline(AffineTransform.getTranslateInstance(left, base)));
  }

  /** Width of a text, pixels. */
  public static double width(String s, Font font) {
    return s.isEmpty() ? 0 : new TextLayout(s, font, FONTS).getAdvance();
  }

  private Path2D.Float rectangle(double x1, double y1, double x2, double y2) {
    Path2D.Float p = new Path2D.Float();
    float left = tenth(x(x1));
    float right = tenth(x(x2));
    float bottom = tenth(y(y1));
    float top = tenth(y(y2));
    p.moveTo(left, bottom);
    p.lineTo(right, bottom);
    p.lineTo(right, top);
    p.lineTo(left, top);
    p.closePath();
    return p;
  }

  /** A tenth of a pixel is finer than any screen; fewer digits make a smaller SVG. */
  public static float tenth(double v) {
    return Math.round(v * 10) / 10f;
  }
}
