package org.padtrue.report.plot;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * Boards as the boxes around their measured placements, with a little air: the job knows origins,
 * not outlines.
 *
 * @param byBoard left, bottom, right, top of each board, mm, panel frame
 */
record Boxes(Map<BoardIndex, double[]> byBoard) {
  private static final double AIR = 0.03;
  private static final double LEAST_AIR_MM = 0.5;

  /** A cell of a board: column and row within it, from its lower left. */
  record Cell(BoardIndex board, int column, int row) {}

  static Boxes of(PlotData data) {
    Map<BoardIndex, double[]> boxes = new TreeMap<>();
    for (List<Point> points : List.of(data.used(), data.excluded())) {
      for (Point p : points) {
        double[] b =
            boxes.computeIfAbsent(
                p.result().board(), k -> new double[] {p.x(), p.y(), p.x(), p.y()});
        extend(b, p.x(), p.y());
      }
    }
    return withAir(boxes);
  }

  /** The same around all placements of a job, measured or not. */
  static Boxes of(Job job) {
    Map<BoardIndex, double[]> boxes = new TreeMap<>();
    for (Board board : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(board.origin());
        double[] one = {at.xMm(), at.yMm(), at.xMm(), at.yMm()};
        extend(boxes.computeIfAbsent(board.index(), k -> one), at.xMm(), at.yMm());
      }
    }
    return withAir(boxes);
  }

  private static Boxes withAir(Map<BoardIndex, double[]> boxes) {
    for (double[] b : boxes.values()) {
      double air = AIR * Math.max(b[2] - b[0], b[3] - b[1]) + LEAST_AIR_MM;
      b[0] -= air;
      b[1] -= air;
      b[2] += air;
      b[3] += air;
    }
    return new Boxes(boxes);
  }

  /** Free room above a board up to the next one there, mm; infinite when there is none. */
  double gapAbove(BoardIndex board) {
    double[] own = byBoard.getOrDefault(board, new double[4]);
    double least = Double.POSITIVE_INFINITY;
    for (Map.Entry<BoardIndex, double[]> e : byBoard.entrySet()) {
      double[] b = e.getValue();
      boolean above = b[3] > own[3] && b[0] < own[2] && b[2] > own[0];
      if (above && !e.getKey().equals(board)) {
        least = Math.min(least, b[1] - own[3]);
      }
    }
    return least;
  }

  /** Area of all boxes, mm^2. */
  double area() {
    return byBoard.values().stream().mapToDouble(b -> (b[2] - b[0]) * (b[3] - b[1])).sum();
  }

  /** The cell of a placement, cells being equal parts of its board of about a given side. */
  Cell cell(Point p, double sideMm) {
    double[] b = byBoard.get(p.result().board());
    if (b == null) {
      throw new IllegalArgumentException("no board " + p.result().board());
    }
    return new Cell(
        p.result().board(), part(p.x(), b[0], b[2], sideMm), part(p.y(), b[1], b[3], sideMm));
  }

  private static int part(double v, double low, double high, double sideMm) {
    int parts = (int) Math.max(1, Math.round((high - low) / sideMm));
    return (int) Math.min(parts - 1, (v - low) / (high - low) * parts);
  }

  /** Box around all boards and some points. */
  double[] extent(List<double[]> points) {
    double[] all = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    for (double[] b : byBoard.values()) {
      extend(all, b[0], b[1]);
      extend(all, b[2], b[3]);
    }
    for (double[] p : points) {
      extend(all, p[0], p[1]);
    }
    return all;
  }

  private static void extend(double[] b, double x, double y) {
    b[0] = Math.min(b[0], x);
    b[1] = Math.min(b[1], y);
    b[2] = Math.max(b[2], x);
    b[3] = Math.max(b[3], y);
  }
}
