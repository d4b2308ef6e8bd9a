package org.padtrue.land;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.algorithm.ConvexHull;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;

/**
 * Finds the terminations that can decide. Of terminations that are alike and sit alike on their
 * lands, a shift and turn of the part carries each by an amount that is convex in its position, so
 * the worst one is a corner of their convex hull: four of the hundred balls of a grid, two of the
 * leads of a row. The rest need not be looked at.
 */
final class Outermost {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** Numbers that agree to this, mm, are alike. */
  private static final double ALIKE_MM = 1e-9;

  private Outermost() {}

  /**
   * Indices of the terminations to keep, ascending.
   *
   * @param x positions
   * @param y positions
   * @param alike for each, the numbers that must agree for two to be alike
   */
  static int[] of(double[] x, double[] y, double[][] alike) {
    Map<List<Long>, Map<Coordinate, Integer>> groups = new HashMap<>();
    for (int i = 0; i < x.length; i++) {
      List<Long> key = new ArrayList<>();
      for (double v : alike[i]) {
        key.add(Math.round(v / ALIKE_MM));
      }
      groups.computeIfAbsent(key, k -> new HashMap<>()).put(new Coordinate(x[i], y[i]), i);
    }
    return groups.values().stream()
        .flatMap(g -> corners(g).stream())
        .mapToInt(Integer::intValue)
        .sorted()
        .distinct()
        .toArray();
  }

  private static List<Integer> corners(Map<Coordinate, Integer> points) {
    Coordinate[] all = points.keySet().toArray(new Coordinate[0]);
    List<Integer> out = new ArrayList<>();
    for (Coordinate c : new ConvexHull(all, GEOMETRY).getConvexHull().getCoordinates()) {
      Integer i = points.get(c);
      if (i != null) {
        out.add(i);
      }
    }
    return out;
  }
}
