package org.padtrue.plan;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.padtrue.panel.Pose;

/**
 * A short way over the panel: from the point nearest the lower left corner always to the nearest
 * one left, then pieces of the way are turned round as long as that shortens it (2-opt). The way is
 * open: nobody walks back.
 */
final class MeasuringPlanWalk {
  private static final double SHORTER_MM = 1e-9;

  private MeasuringPlanWalk() {}

  /**
   * Finds the way.
   *
   * @param points what to visit, panel frame
   * @return indices of the points in walking order
   */
  static List<Integer> order(List<Pose> points) {
    List<Integer> way = nearestNeighbour(points);
    boolean shorter = true;
    while (shorter) {
      shorter = false;
      for (int i = 0; i + 2 < way.size(); i++) {
        for (int k = i + 2; k < way.size(); k++) {
          if (gain(points, way, i, k) > SHORTER_MM) {
            Collections.reverse(way.subList(i + 1, k + 1));
            shorter = true;
          }
        }
      }
    }
    return way;
  }

  /** Length of a way, mm. */
  static double length(List<Pose> points, List<Integer> way) {
    double sum = 0;
    for (int i = 1; i < way.size(); i++) {
      sum += distance(points.get(way.get(i - 1)), points.get(way.get(i)));
    }
    return sum;
  }

  private static List<Integer> nearestNeighbour(List<Pose> points) {
    double left = points.stream().mapToDouble(Pose::xMm).min().orElse(0);
    double low = points.stream().mapToDouble(Pose::yMm).min().orElse(0);
    Pose at = new Pose(left, low, 0);
    List<Integer> rest = new ArrayList<>();
    for (int i = 0; i < points.size(); i++) {
      rest.add(i);
    }
    List<Integer> way = new ArrayList<>();
    while (!rest.isEmpty()) {
      int best = 0;
      for (int i = 1; i < rest.size(); i++) {
        if (distance(at, points.get(rest.get(i))) < distance(at, points.get(rest.get(best)))) {
          best = i;
        }
      }
      Integer next = rest.remove(best);
      way.add(next);
      at = points.get(next);
    }
    return way;
  }

  /** What turning round the stretch i+1..k saves; the last stretch has no way out of it. */
  private static double gain(List<Pose> p, List<Integer> way, int i, int k) {
    Pose a = p.get(way.get(i));
    Pose b = p.get(way.get(i + 1));
    Pose c = p.get(way.get(k));
    double gain = distance(a, b) - distance(a, c);
    if (k + 1 < way.size()) {
      Pose d = p.get(way.get(k + 1));
      gain += distance(c, d) - distance(b, d);
    }
    return gain;
  }

  private static double distance(Pose a, Pose b) {
    return Math.hypot(a.xMm() - b.xMm(), a.yMm() - b.yMm());
  }
}
