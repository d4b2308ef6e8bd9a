package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.report.plot.ink.Range;

/**
 * Vectors over the panel: one per placement, or the mean of each square cell when there are too
 * many to tell apart.
 *
 * @param arrows the vectors
 * @param cellMm side of a cell, about, mm; 0 when every placement has its own arrow
 */
record ArrowField(List<Arrow> arrows, double cellMm) {
  /** Up to here every placement has its own arrow. */
  static final int SINGLE_MOST = 1500;

  private static final int CELLS_WANTED = 700;

  /**
   * One vector.
   *
   * @param xMm foot, mm
   * @param yMm foot, mm
   * @param dxUm micrometres
   * @param dyUm micrometres
   */
  record Arrow(double xMm, double yMm, double dxUm, double dyUm) {
    double length() {
      return Math.hypot(dxUm, dyUm);
    }
  }

  /** One arrow for every point, or means over the cells of each board when there are too many. */
  static ArrowField of(List<Point> points, Function<Point, Xyr> vector, Boxes boxes) {
    boolean single = points.size() <= SINGLE_MOST;
    double cell = single ? 0 : Range.roundUp(Math.sqrt(boxes.area() / CELLS_WANTED));
    Map<Object, double[]> sums = new LinkedHashMap<>();
    for (Point p : points) {
      Xyr d = vector.apply(p);
      if (!Double.isNaN(d.x()) && !Double.isNaN(d.y())) {
        Object key = single ? p : boxes.cell(p, cell);
        double[] s = sums.computeIfAbsent(key, k -> new double[5]);
        s[0] += p.x();
        s[1] += p.y();
        s[2] += 1000 * d.x();
        s[3] += 1000 * d.y();
        s[4]++;
      }
    }
    List<Arrow> arrows = new ArrayList<>(sums.size());
    for (double[] s : sums.values()) {
      arrows.add(new Arrow(s[0] / s[4], s[1] / s[4], s[2] / s[4], s[3] / s[4]));
    }
    return new ArrowField(arrows, cell);
  }

  /** Length that nine in ten do not pass, micrometres. */
  double longUm() {
    double[] lengths = arrows.stream().mapToDouble(Arrow::length).toArray();
    if (lengths.length == 0) {
      return 1;
    }
    Arrays.sort(lengths);
    double v = lengths[(int) Math.min(lengths.length - 1, Math.round(0.9 * lengths.length))];
    return v > 0 ? v : 1;
  }
}
