package org.padtrue.report.plot.ink;

import java.awt.Color;
import java.util.List;

/** A chart of horizontal rows, the first at the top, each with its name at the left. */
public final class ChartRows {
  private static final int ROW_PIXELS = 30;
  private static final int AROUND_PIXELS = 130;

  /** XChart places nothing right on an axis that is shorter than its ticks are wide. */
  private static final int LEAST_ROWS_PIXELS = 90;

  private static final int TICK_PIXELS = 20;

  private static final int GAP_PIXELS = 10;
  private static final Color BAND = Palette.faint(Palette.QUIET, 20);

  private ChartRows() {}

  /**
   * Axes, row names and bands.
   *
   * @param width pixels
   * @param title title
   * @param xTitle what the x axis shows, with its unit
   * @param x range of the x axis
   * @param names names of the rows, top down
   */
  public static ChartFrame frame(
      int width, String title, String xTitle, Range x, List<String> names) {
    Range y = new Range(0.5, names.size() + 0.5);
    int height = Math.max(LEAST_ROWS_PIXELS, names.size() * ROW_PIXELS) + AROUND_PIXELS;
    double longest = names.stream().mapToDouble(n -> Ink.width(n, Palette.TICK)).max().orElse(0);
    int room = (int) Math.ceil(longest) + GAP_PIXELS;
    ChartFrame f = new ChartFrame(width, height, room, title, xTitle, "", x, y);
    f.styler().setYAxisTicksVisible(false);
    f.styler().setYAxisTickMarkSpacingHint(TICK_PIXELS);
    f.styler().setYAxisTitleVisible(false);
    f.styler().setPlotGridHorizontalLinesVisible(false);
    f.draw(
        ink -> {
          for (int i = 0; i < names.size(); i++) {
            double at = place(i, names.size());
            if (i % 2 == 1) {
              ink.block(ink.xRange().low(), at - 0.5, ink.xRange().high(), at + 0.5, BAND);
            }
            ink.text(
                names.get(i),
                ink.area().getMinX() - 7,
                ink.y(at),
                Ink.Anchor.RIGHT,
                Palette.TICK,
                Palette.INK);
          }
        });
    return f;
  }

  /** Where a row lies on the y axis. */
  public static double place(int row, int rows) {
    return rows - row;
  }
}
