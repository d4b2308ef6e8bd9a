package org.padtrue.history;

import java.util.List;

/**
 * One term over the articles of a machine that stand, in order of time.
 *
 * @param name shiftX, scaleXPpm, "part R0603 x"
 * @param unit mm, deg, ppm or mrad
 * @param points in order of time
 */
public record LoggedSeries(String name, String unit, List<LoggedPoint> points) {
  public LoggedSeries {
    points = List.copyOf(points);
  }
}
