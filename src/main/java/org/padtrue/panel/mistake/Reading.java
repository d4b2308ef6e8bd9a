package org.padtrue.panel.mistake;

import org.padtrue.quantity.LengthUnit;

/**
 * One way to read an article.
 *
 * @param kind what it supposes to be wrong
 * @param unit the unit in which values were written, for {@link Kind#UNIT}; else mm
 */
public record Reading(Kind kind, LengthUnit unit) {

  /** Usual mistakes. */
  public enum Kind {
    AS_GIVEN(""),
    UNIT("unit"),
    SWAPPED("swappedAxes"),
    TURNED_90("turned"),
    TURNED_180("turned"),
    TURNED_270("turned"),
    MIRRORED_X("mirrored"),
    MIRRORED_Y("mirrored"),
    MIRRORED_TURNED("mirrored"),
    BOARD_COLUMNS("boardNumbers"),
    BOARD_ROWS("boardNumbers"),
    BOARD_BOTH("boardNumbers"),
    BOARD_SWAPPED("boardNumbers"),
    BOARD_FRAME("boardFrame"),
    POSES("posesAsDeviations"),
    DEVIATIONS("deviationsAsPoses");

    private final String key;

    Kind(String key) {
      this.key = key;
    }

    /** Name of the question in a job's {@code asIs}. */
    public String key() {
      return key;
    }
  }

  /** A reading that supposes no other unit. */
  public static Reading of(Kind kind) {
    return new Reading(kind, LengthUnit.MM);
  }
}
