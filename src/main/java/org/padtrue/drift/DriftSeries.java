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

  /** Between the two levels of a difference. */
  private static final String MINUS = " minus ";

  /** Name of the difference of two levels: "nozzle N1 minus N2 x". */
  public static String difference(String factor, String plus, String minus, String axis) {
    return factor + " " + plus + MINUS + minus + " " + axis;
  }

  /** Between a level and the level of another factor that it cannot be told from. */
  private static final String WITH = " with ";

  /** Name of a level that only ever comes with one level of another: "part IC with nozzle N3 x". */
  public static String tied(String factor, String level, String to, String axis) {
    return factor + " " + level + WITH + to + " " + axis;
  }

  /** True for the name of a level that is tied to another factor's. */
  public static boolean isTied(String name) {
    return name.contains(WITH);
  }

  /** What a tied level cannot be told from, "nozzle N3"; empty for others. */
  public String tiedTo() {
    return isTied(name) ? level().substring(level().indexOf(WITH) + WITH.length()) : "";
  }

  /** True when it is the difference of two levels. */
  public boolean isDifference() {
    return isDifference(name);
  }

  /** True for the name of a difference of two levels. */
  public static boolean isDifference(String name) {
    return name.contains(MINUS);
  }

  /** The level whose offset counts as it is: the only one, or the first of a difference. */
  public String plusLevel() {
    String l = level();
    return isDifference()
        ? l.substring(0, l.indexOf(MINUS))
        : isTied(name) ? l.substring(0, l.indexOf(WITH)) : l;
  }

  /** The level that a difference takes off; empty for a single level. */
  public String minusLevel() {
    return isDifference() ? level().substring(level().indexOf(MINUS) + MINUS.length()) : "";
  }

  /** x, y or rotation of a factor's term; empty for a term of the panel. */
  public String axis() {
    return factor().isEmpty() ? "" : name.substring(name.lastIndexOf(' ') + 1);
  }
}
