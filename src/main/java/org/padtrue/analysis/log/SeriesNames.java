package org.padtrue.analysis.log;

import java.util.List;
import java.util.Optional;
import org.padtrue.drift.DriftSeries;

/** Names of series and their units. */
public final class SeriesNames {
  /** Series of the panel and of the machine as a whole, in the order of reports. */
  public static final List<String> PANEL =
      List.of(
          "shiftX",
          "shiftY",
          "rotation",
          "scaleXPpm",
          "scaleYPpm",
          "squarenessMrad",
          "rotationZero",
          "scatterX",
          "scatterY");

  /** Factors whose levels have series, in the order of reports. */
  public static final List<String> FACTORS = List.of("part", "nozzle", "feeder", "head", "board");

  private SeriesNames() {}

  /**
   * Unit of a series that a trim can move: mm, deg, ppm or mrad.
   *
   * @param name shiftX, scaleXPpm, "part R0603 x", "part * x" for all levels, or "part R0603 turn"
   *     for a whole turn of its library
   * @return empty when no trim has this name
   */
  public static Optional<String> trimUnit(String name) {
    return switch (name) {
      case "shiftX", "shiftY" -> Optional.of("mm");
      case "rotation", "rotationZero" -> Optional.of("deg");
      case "scaleXPpm", "scaleYPpm" -> Optional.of("ppm");
      case "squarenessMrad" -> Optional.of("mrad");
      default -> levelUnit(name);
    };
  }

  private static Optional<String> levelUnit(String name) {
    int first = name.indexOf(' ');
    int last = name.lastIndexOf(' ');
    if (DriftSeries.isDifference(name)
        || DriftSeries.isTied(name)
        || first < 0
        || last <= first + 1
        || !FACTORS.contains(name.substring(0, first))) {
      return Optional.empty();
    }
    return switch (name.substring(last + 1)) {
      case "x", "y" -> Optional.of("mm");
      case "rotation" -> Optional.of("deg");
      case "turn" -> name.startsWith("part ") ? Optional.of("deg") : Optional.empty();
      default -> Optional.empty();
    };
  }

  /**
   * Why a value cannot be a trim of this name.
   *
   * @return one clause; empty when it can
   */
  public static Optional<String> wrong(String name, double value) {
    boolean turn = name.startsWith("part ") && name.endsWith(" turn");
    return turn && !(value % 90 == 0 && value % 360 != 0)
        ? Optional.of("a turn is 90, 180 or 270 degrees")
        : Optional.empty();
  }
}
