package org.padtrue.firstarticle.result;

import java.util.Locale;
import org.padtrue.panel.BoardIndex;

/**
 * One thing to change: a line of the trim sheet.
 *
 * @param where what to change, in words: "registration", "part type R0603", "board 3/2 origin"
 * @param kind kind of trim, as in the job's machine.accepts; "coordinates" for a corrected
 *     coordinate
 * @param from present value in words or numbers when known, else empty
 * @param addX value to ADD to x, mm (ppm for scale); NaN does not apply
 * @param addY value to ADD to y, mm (ppm for scale); NaN does not apply
 * @param addRotation value to ADD to rotation, degrees, without the turn; NaN does not apply
 * @param addTurn whole turn to ADD to the rotation that the library counts from, degrees: 90, 180
 *     or 270; 0 none
 * @param addSquareness value to ADD to the angle between the axes, mrad; NaN does not apply
 * @param unit units of the values, e.g. "mm, mm, deg", "ppm, ppm", "mrad"
 * @param frame panel or part
 * @param about point about which a rotation or scale acts, e.g. "panel origin (0, 0)"; empty if
 *     none
 * @param why one sentence
 * @param effect how sure it is, and what it takes out
 */
public record TrimLine(
    String where,
    String kind,
    String from,
    double addX,
    double addY,
    double addRotation,
    int addTurn,
    double addSquareness,
    String unit,
    String frame,
    String about,
    String why,
    TrimEffect effect) {

  /** What the line of the scale along the axes is called; squareness has its own. */
  public static final String AXIS_SCALE = "axis scale";

  /** What the line of one board's origin is called. */
  public static String originOf(BoardIndex board) {
    return String.format(Locale.ROOT, "board %s origin", board);
  }

  /** A line without turn and squareness of which no effect is known. */
  public TrimLine(
      String where,
      String kind,
      String from,
      double addX,
      double addY,
      double addRotation,
      String unit,
      String frame,
      String about,
      String why) {
    this(
        where,
        kind,
        from,
        addX,
        addY,
        addRotation,
        0,
        Double.NaN,
        unit,
        frame,
        about,
        why,
        TrimEffect.UNKNOWN);
  }

  /** The same line with another effect. */
  public TrimLine with(TrimEffect other) {
    return new TrimLine(
        where,
        kind,
        from,
        addX,
        addY,
        addRotation,
        addTurn,
        addSquareness,
        unit,
        frame,
        about,
        why,
        other);
  }
}
