package org.padtrue.report.words;

import java.util.List;
import org.padtrue.firstarticle.result.TrimEffect;
import org.padtrue.firstarticle.result.TrimLine;

/**
 * The values of a trim as people read them, with sign and unit, and beside each one standard error
 * of the estimate that it corrects; empty where a value does not apply. Lengths show as
 * micrometres. The turn is a whole one, without a sign.
 */
public record TrimText(
    Value x, Value y, Value rotation, Value squareness, String turn, String rms, String outside) {

  /**
   * A value to ADD.
   *
   * @param value with sign, without unit; empty where it does not apply
   * @param error one standard error, or empty
   * @param unit um, deg, ppm or mrad
   */
  record Value(String value, String error, String unit) {
    static final Value NONE = new Value("", "", "");

    boolean applies() {
      return !value.isEmpty();
    }

    /** The same without its unit. */
    String bare() {
      return error.isEmpty() || value.equals("0") ? value : value + " +- " + error;
    }
  }

  static TrimText of(TrimLine t) {
    List<String> units = units(t);
    TrimEffect e = t.effect();
    return new TrimText(
        value(t.addX(), e.standardErrors().x(), units.get(0)),
        value(t.addY(), e.standardErrors().y(), units.get(1)),
        value(t.addRotation(), e.standardErrors().rotation(), "deg"),
        value(t.addSquareness(), e.squarenessError(), "mrad"),
        t.addTurn() == 0 ? "" : t.addTurn() + " deg",
        Double.isNaN(e.takesOutMm()) || t.addTurn() != 0 && e.takesOutMm() == 0
            ? ""
            : Show.um(e.takesOutMm()),
        outside(e.fewerOutside()));
  }

  private static String outside(double fewer) {
    if (Double.isNaN(fewer)) {
      return "";
    }
    return Math.abs(fewer) < 0.01 ? "0" : Show.short0(fewer, Math.abs(fewer) < 1 ? 2 : 1);
  }

  /** The units of x and y; a single one serves both. */
  public static List<String> units(TrimLine t) {
    String[] u = t.unit().split(",", -1);
    String first = u[0].isBlank() ? "mm" : u[0].trim();
    return List.of(first, u.length > 1 ? u[1].trim() : first);
  }

  private static Value value(double v, double se, String unit) {
    if (!Double.isFinite(v)) {
      return Value.NONE;
    }
    boolean length = unit.equals("mm");
    String shown = length ? "um" : unit;
    if (v == 0) {
      return new Value("0", "", shown);
    }
    String value =
        switch (unit) {
          case "mm" -> Show.exactUm(v);
          case "deg" -> Show.signedDeg(v);
          case "mrad" -> Show.signedFixed(v, 3);
          default -> Show.signedFixed(v, Math.abs(v) < 10 ? 1 : 0);
        };
    String error =
        Double.isFinite(se) && se > 0
            ? switch (unit) {
              case "mm" -> Show.three(1000 * se);
              case "deg", "mrad" -> Show.fixed(se, 3);
              default -> Show.fixed(se, se < 10 ? 1 : 0);
            }
            : "";
    return new Value(value, error, shown);
  }
}
