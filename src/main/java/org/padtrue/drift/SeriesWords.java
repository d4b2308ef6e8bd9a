package org.padtrue.drift;

/** What a series is called where a person reads it, in which frame it stands, what plus means. */
public final class SeriesWords {
  private SeriesWords() {}

  /** Name in words: "scale x", "nozzle N1, x", "nozzle N1 minus nozzle N2, x". */
  public static String name(String series) {
    return switch (series) {
      case "shiftX" -> "panel offset x";
      case "shiftY" -> "panel offset y";
      case "rotation" -> "panel rotation";
      case "scaleXPpm" -> "scale x";
      case "scaleYPpm" -> "scale y";
      case "squarenessMrad" -> "squareness";
      case "rotationZero" -> "rotation zero";
      case "centreShiftX" -> "panel offset x, at the centre";
      case "centreShiftY" -> "panel offset y, at the centre";
      case "scatterX" -> "scatter x";
      case "scatterY" -> "scatter y";
      default -> level(series);
    };
  }

  private static String level(String series) {
    DriftSeries s = new DriftSeries(series, "", java.util.List.of());
    if (s.factor().isEmpty() || s.level().isEmpty()) {
      return series;
    }
    String factor = factor(s.factor());
    if (s.isDifference()) {
      return factor
          + " "
          + s.plusLevel()
          + " minus "
          + factor
          + " "
          + s.minusLevel()
          + ", "
          + s.axis();
    }
    return factor + " " + s.level() + ", " + s.axis();
  }

  /** "part type", "nozzle", "feeder", "head", "board". */
  static String factor(String factor) {
    return factor.equals("part") ? "part type" : factor;
  }

  /** Whether it stays with the panel or turns with the part; empty where neither says anything. */
  public static String frame(String series) {
    DriftSeries s = new DriftSeries(series, "", java.util.List.of());
    if (series.equals("shiftX") || series.equals("shiftY") || series.equals("rotation")) {
      return "stays with the panel";
    }
    boolean position = s.axis().equals("x") || s.axis().equals("y");
    if (!position) {
      return "";
    }
    return s.factor().equals("head") || s.factor().equals("board")
        ? "stays with the panel"
        : "turns with the part";
  }

  /** What a positive value means: "to the right". */
  public static String plus(String series) {
    DriftSeries s = new DriftSeries(series, "", java.util.List.of());
    boolean part = frame(series).equals("turns with the part");
    String axis = series.equals("shiftX") ? "x" : series.equals("shiftY") ? "y" : s.axis();
    return switch (axis) {
      case "x" -> part ? "plus: to the right of the part at rotation 0" : "plus: to the right";
      case "y" -> part ? "plus: up from the part at rotation 0" : "plus: up";
      case "rotation" -> "plus: counter-clockwise";
      default ->
          switch (series) {
            case "rotation", "rotationZero" -> "plus: counter-clockwise";
            case "scaleXPpm", "scaleYPpm" -> "plus: longer than nominal";
            case "squarenessMrad" -> "plus: more than 90 degrees from x to y";
            case "scatterX", "scatterY" -> "standard deviation of a placement";
            default -> "";
          };
    };
  }

  /** Name with frame: "nozzle N1, x (turns with the part)". */
  public static String framed(String series) {
    String f = frame(series);
    return name(series) + (f.isEmpty() ? "" : " (" + f + ")");
  }
}
