package org.padtrue.load.names;

import org.jspecify.annotations.Nullable;

/**
 * What a name of a land pattern states. Lengths mm; NaN where it states nothing.
 *
 * @param style how the name is written
 * @param family letters that say which kind of package, upper case; empty when none
 * @param pins number of terminations, the middle one left out; 0 when not stated
 * @param middle 1 when it states a termination in the middle, 0 when it states none, -1 unknown
 * @param pitch pitch
 * @param span over the ends of the terminations
 * @param length body along x at rotation 0; for two-ended parts along the part
 * @param width body along y
 * @param height greatest height
 * @param code chip code as written, or null
 * @param metric true or false where the name says in which unit its code is, else null
 * @param middleMm side of the middle termination where stated
 * @param remark what about the name departs from the plain land pattern; empty when nothing does
 */
record StatedName(
    Style style,
    String family,
    int pins,
    int middle,
    double pitch,
    double span,
    double length,
    double width,
    double height,
    @Nullable String code,
    @Nullable Boolean metric,
    double middleMm,
    String remark) {

  /** Ways to write names. */
  enum Style {
    /** IPC-7351 land pattern name. */
    IPC_7351("IPC-7351 name"),
    /** Package, pins, and the size in mm. */
    SIZED("size in the name"),
    /** L, W, P and LS followed by numbers. */
    LETTERED("size in the name, though not by a standard's naming"),
    /** Code of a chip. */
    CHIP("chip code"),
    /** A published outline. */
    OUTLINE("outline's name"),
    NONE("");

    private final String words;

    Style(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** The same with another remark. */
  StatedName with(String other) {
    return new StatedName(
        style, family, pins, middle, pitch, span, length, width, height, code, metric, middleMm,
        other);
  }

  /** The same of another kind. */
  StatedName of(String other) {
    return new StatedName(
        style, other, pins, middle, pitch, span, length, width, height, code, metric, middleMm,
        remark);
  }

  /** The same with another body. */
  StatedName sides(double lengthMm, double widthMm) {
    return new StatedName(
        style, family, pins, middle, pitch, span, lengthMm, widthMm, height, code, metric, middleMm,
        remark);
  }

  static StatedName none() {
    double x = Double.NaN;
    return new StatedName(Style.NONE, "", 0, -1, x, x, x, x, x, null, null, x, "");
  }

  static StatedName chip(
      String family, String code, @Nullable Boolean metric, double height, String remark) {
    double x = Double.NaN;
    return new StatedName(Style.CHIP, family, 2, 0, x, x, x, x, height, code, metric, x, remark);
  }

  /** The same with a size of two-ended parts. */
  static StatedName two(Style style, String family, double length, double width, double height) {
    double x = Double.NaN;
    return new StatedName(style, family, 2, 0, x, x, length, width, height, null, null, x, "");
  }
}
