package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.padtrue.report.plot.ink.ChartRows;
import org.padtrue.report.plot.ink.Cloud;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;

/**
 * Placements by part type, the most frequent first; types beyond the most that a chart can show
 * share its last row.
 *
 * @param names names of the rows with their counts
 * @param points placements of each row
 * @param pooled true when the last row holds several types
 */
record TypeRows(List<String> names, List<List<Point>> points, boolean pooled) {
  private static final int MOST = 22;
  private static final int NAME_MOST = 18;

  static TypeRows of(List<Point> all) {
    Map<String, List<Point>> byType = new LinkedHashMap<>();
    all.forEach(p -> byType.computeIfAbsent(p.result().part(), k -> new ArrayList<>()).add(p));
    List<Map.Entry<String, List<Point>>> sorted = new ArrayList<>(byType.entrySet());
    sorted.sort(
        Comparator.comparingInt((Map.Entry<String, List<Point>> e) -> -e.getValue().size())
            .thenComparing(Map.Entry::getKey));
    List<String> names = new ArrayList<>();
    List<List<Point>> points = new ArrayList<>();
    boolean pooled = sorted.size() > MOST;
    int single = pooled ? MOST - 1 : sorted.size();
    for (Map.Entry<String, List<Point>> e : sorted.subList(0, single)) {
      names.add(Labels.cut(e.getKey(), NAME_MOST) + " (" + e.getValue().size() + ")");
      points.add(e.getValue());
    }
    if (pooled) {
      List<Point> rest = new ArrayList<>();
      sorted.subList(single, sorted.size()).forEach(e -> rest.addAll(e.getValue()));
      names.add(sorted.size() - single + " other types (" + rest.size() + ")");
      points.add(rest);
    }
    return new TypeRows(names, points, pooled);
  }

  /** Draws a value of every placement as a strip in its row, between two heights of the row. */
  void strip(
      Ink ink,
      ToDoubleFunction<Point> value,
      double from,
      double to,
      Ink.Mark mark,
      java.awt.Color color) {
    int all = size();
    double[] xs = new double[all];
    double[] ys = new double[all];
    int k = 0;
    for (int row = 0; row < points.size(); row++) {
      double at = ChartRows.place(row, points.size());
      for (Point p : points.get(row)) {
        xs[k] = value.applyAsDouble(p);
        ys[k] = at + from + (to - from) * spread(k);
        k++;
      }
    }
    Cloud.draw(ink, mark, xs, ys, color, all);
  }

  /** Placements of all rows. */
  int size() {
    return points.stream().mapToInt(List::size).sum();
  }

  /** Even spread over a strip, the same every time: the golden ratio's multiples. */
  private static double spread(int k) {
    double v = k * 0.6180339887498949;
    return v - Math.floor(v);
  }
}
