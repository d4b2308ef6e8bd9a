package org.padtrue.drift.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A chart over a series.
 *
 * @param kind individuals, movingRange, ewma, cusumUp or cusumDown
 * @param points in order
 */
public record ControlChart(String kind, List<ChartPoint> points) {
  public ControlChart {
    points = List.copyOf(points);
  }

  /** True when any point is out. */
  public boolean signals() {
    return points.stream().anyMatch(ChartPoint::out);
  }

  /** The first point of every run of points that are out. */
  public List<ChartPoint> starts() {
    List<ChartPoint> starts = new ArrayList<>();
    boolean before = false;
    for (ChartPoint p : points) {
      if (p.out() && !before) {
        starts.add(p);
      }
      before = p.out();
    }
    return starts;
  }
}
