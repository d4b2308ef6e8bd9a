package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.padtrue.analysis.Xyr;

/**
 * Vectors over the panel: one per placement, or the mean of each square cell when there are too
 * many to tell apart.
 *
 * @param arrows the vectors
 * @param cellMm side of a cell, mm; 0 when every placement has its own arrow
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

  static ArrowField of(List<Point> points, Function<Point, Xyr> vector, Range x, Range y) {
    List<Arrow> single = new ArrayList<>(points.size());
    for (Point p : points) {
      Xyr d = vector.apply(p);
      if (!Double.isNaN(d.x()) && !Double.isNaN(d.y())) {
        single.add(new Arrow(p.x(), p.y(), d.x() * 1000, d.y() * 1000));
      }
    }
    if (single.size() <= SINGLE_MOST) {
      return new ArrowField(single, 0);
    }
    double cell = Range.roundUp(Math.sqrt(x.length() * y.length() / CELLS_WANTED));
    return new ArrowField(means(single, cell), cell);
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

  private static List<Arrow> means(List<Arrow> single, double cell) {
    Map<Long, double[]> sums = new LinkedHashMap<>();
    for (Arrow a : single) {
      long key = (long) Math.floor(a.xMm / cell) * 1_000_003L + (long) Math.floor(a.yMm / cell);
      double[] s = sums.computeIfAbsent(key, k -> new double[5]);
      s[0] += a.xMm;
      s[1] += a.yMm;
      s[2] += a.dxUm;
      s[3] += a.dyUm;
      s[4]++;
    }
    List<Arrow> means = new ArrayList<>(sums.size());
    for (double[] s : sums.values()) {
      means.add(new Arrow(s[0] / s[4], s[1] / s[4], s[2] / s[4], s[3] / s[4]));
    }
    return means;
  }
}
