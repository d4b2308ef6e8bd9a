package org.padtrue.report.plot;

import java.awt.Color;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;

/** A chart of horizontal rows, the first at the top, each with its name at the left. */
final class Rows {
  private static final int ROW_PIXELS = 30;
  private static final int AROUND_PIXELS = 120;
  private static final Color CLEAR = new Color(255, 255, 255, 0);
  private static final Color BAND = new Color(0xF5F6F7);

  private Rows() {}

  /**
   * Axes, row names and bands.
   *
   * @param width pixels
   * @param title title
   * @param xTitle what the x axis shows, with its unit
   * @param x range of the x axis
   * @param names names of the rows, top down
   */
  static Frame frame(int width, String title, String xTitle, Range x, List<String> names) {
    Range y = new Range(0.5, names.size() + 0.5);
    int height = names.size() * ROW_PIXELS + AROUND_PIXELS;
    Frame f = new Frame(width, height, title, xTitle, "", x, y);
    // XChart names ticks, not rows: its own labels only keep the room, the layer writes the names
    String longest =
        names.isEmpty()
            ? ""
            : Collections.max(names, Comparator.comparingDouble(n -> Ink.width(n, Palette.TICK)));
    f.styler().setyAxisTickLabelsFormattingFunction(v -> longest);
    f.styler().setYAxisTickLabelsColor(CLEAR);
    f.styler().setYAxisTickMarksColor(CLEAR);
    f.styler().setYAxisTitleVisible(false);
    f.styler().setPlotGridHorizontalLinesVisible(false);
    f.draw(
        ink -> {
          for (int i = 0; i < names.size(); i++) {
            double at = place(i, names.size());
            if (i % 2 == 1) {
              ink.block(
                  ink.xRange().low(),
                  at - 0.5,
                  ink.xRange().high(),
                  at + 0.5,
                  Palette.faint(BAND.darker(), 40));
            }
            ink.text(
                names.get(i),
                ink.area().getMinX() - 8,
                ink.y(at),
                Ink.Anchor.RIGHT,
                Palette.TICK,
                Palette.INK);
          }
        });
    return f;
  }

  /** Where a row lies on the y axis. */
  static double place(int row, int rows) {
    return rows - row;
  }
}
