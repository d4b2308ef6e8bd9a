package org.padtrue.report.plot.ink;

import java.awt.Color;
import java.util.HashMap;
import java.util.Map;

/**
 * Many marks. Up to some thousand each point is a small translucent mark; beyond that the points of
 * a small cell share one square, the darker the more they are, so that nothing is thinned out and a
 * single point far off still shows.
 */
public final class Cloud {
  /** From here on points are gathered in cells. */
  static final int DENSE = 3000;

  private static final double CELL_PIXELS = 4;
  private static final int[] ALPHAS = {70, 110, 150, 190, 225, 250};

  private Cloud() {}

  /**
   * Draws points in axis units.
   *
   * @param ink where to
   * @param mark shape of a single mark
   * @param xs along x
   * @param ys along y
   * @param color colour at full strength
   * @param all points of the whole chart, which decides how small marks are
   */
  public static void draw(Ink ink, Ink.Mark mark, double[] xs, double[] ys, Color color, int all) {
    if (all > DENSE) {
      cells(ink, xs, ys, color);
    } else {
      boolean lines = mark.open();
      int alpha = all <= 60 ? 220 : all <= 500 ? 150 : 100;
      ink.marks(mark, xs, ys, radius(all), Palette.faint(color, lines ? alpha + 30 : alpha));
    }
  }

  /** The mark that a legend shows for a cloud. */
  public static Ink.Mark mark(Ink.Mark single, int all) {
    return all > DENSE ? Ink.Mark.SQUARE : single;
  }

  public static double radius(int all) {
    return all <= 60 ? 4 : all <= 500 ? 3.2 : 2.4;
  }

  private static void cells(Ink ink, double[] xs, double[] ys, Color color) {
    int columns = (int) Math.max(1, ink.area().getWidth() / CELL_PIXELS);
    int rows = (int) Math.max(1, ink.area().getHeight() / CELL_PIXELS);
    double w = ink.xRange().length() / columns;
    double h = ink.yRange().length() / rows;
    Map<Integer, Integer> counts = new HashMap<>();
    for (int i = 0; i < xs.length; i++) {
      if (ink.xRange().contains(xs[i]) && ink.yRange().contains(ys[i])) {
        int c = (int) Math.min(columns - 1, (xs[i] - ink.xRange().low()) / w);
        int r = (int) Math.min(rows - 1, (ys[i] - ink.yRange().low()) / h);
        counts.merge(r * columns + c, 1, Integer::sum);
      }
    }
    for (int level = 0; level < ALPHAS.length; level++) {
      level(ink, counts, level, columns, w, h, color);
    }
  }

  private static void level(
      Ink ink,
      Map<Integer, Integer> counts,
      int level,
      int columns,
      double w,
      double h,
      Color color) {
    int[] cells =
        counts.entrySet().stream()
            .filter(e -> levelOf(e.getValue()) == level)
            .mapToInt(Map.Entry::getKey)
            .sorted()
            .toArray();
    double[] xs = new double[cells.length];
    double[] ys = new double[cells.length];
    for (int i = 0; i < cells.length; i++) {
      xs[i] = ink.xRange().low() + (cells[i] % columns + 0.5) * w;
      ys[i] = ink.yRange().low() + (cells[i] / columns + 0.5) * h;
    }
    ink.squares(xs, ys, CELL_PIXELS / 2, Palette.faint(color, ALPHAS[level]));
  }

  /** Doubling counts go one level up. */
  private static int levelOf(int count) {
    return Math.min(ALPHAS.length - 1, 31 - Integer.numberOfLeadingZeros(count));
  }
}
