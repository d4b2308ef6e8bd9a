package org.padtrue.drift;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * One term over time.
 *
 * @param name shiftX, scaleXPpm, scatterY, or factor, level and axis: "part R0603 x"
 * @param unit mm, deg, ppm or mrad
 * @param points in order of time; points without a finite value or state are left out
 */
public record DriftSeries(String name, String unit, List<SeriesPoint> points) {
  public DriftSeries {
    List<SeriesPoint> kept = new ArrayList<>();
    for (SeriesPoint p : points) {
      if (Double.isFinite(p.value()) && Double.isFinite(p.state())) {
        kept.add(p);
      }
    }
    kept.sort(Comparator.comparing(SeriesPoint::at));
    points = List.copyOf(kept);
  }

  /** part, nozzle, feeder, head or board; empty for a term of the panel. */
  public String factor() {
    int space = name.indexOf(' ');
    return space < 0 ? "" : name.substring(0, space);
  }

  /** Level of the factor; empty for a term of the panel. */
  public String level() {
    int first = name.indexOf(' ');
    int last = name.lastIndexOf(' ');
    return first < 0 || last == first ? "" : name.substring(first + 1, last);
  }

  /** x, y or rotation of a factor's term; empty for a term of the panel. */
  public String axis() {
    return factor().isEmpty() ? "" : name.substring(name.lastIndexOf(' ') + 1);
  }
}
