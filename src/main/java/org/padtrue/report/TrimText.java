package org.padtrue.report;

import java.util.List;
import org.padtrue.analysis.TrimLine;

/**
 * The three values of a trim as people read them, with sign and unit; empty where a value does not
 * apply. Lengths show as micrometres. The turn is a whole one, without a sign.
 */
record TrimText(String x, String y, String rotation, String turn) {

  static TrimText of(TrimLine t) {
    List<String> units = units(t);
    return new TrimText(
        value(t.addX(), units.get(0)),
        value(t.addY(), units.get(1)),
        value(t.addRotation(), units.get(2)),
        t.addTurn() == 0 ? "" : t.addTurn() + " deg");
  }

  /**
   * The units of the three values; a single unit serves x and y, degrees are meant for rotation.
   */
  static List<String> units(TrimLine t) {
    String[] u = t.unit().split(",", -1);
    String first = u[0].isBlank() ? "mm" : u[0].trim();
    return List.of(
        first,
        u.length > 1 ? u[1].trim() : first,
        u.length > 2 ? u[2].trim() : first.equals("ppm") ? "mrad" : "deg");
  }

  private static String value(double v, String unit) {
    if (!Double.isFinite(v)) {
      return "";
    }
    if (v == 0) {
      return "0";
    }
    return switch (unit) {
      case "mm" -> Show.exactUm(v) + " um";
      case "deg" -> Show.signedDeg(v) + " deg";
      case "mrad" -> Show.signedFixed(v, 3) + " mrad";
      default -> Show.signedFixed(v, Math.abs(v) < 10 ? 1 : 0) + " " + unit;
    };
  }
}
