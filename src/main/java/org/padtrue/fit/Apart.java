package org.padtrue.fit;

import org.padtrue.panel.Factor;

/**
 * A level that stands apart from the others of its factor, so far that it says nothing of them.
 *
 * @param factor the factor
 * @param level name of the level
 * @param count placements measured of it that agree
 * @param position true when its position stands apart
 * @param rotation true when its rotation does
 * @param xMm offset in the factor's frame, mm
 * @param yMm the same
 * @param rotationDeg rotation against the others, degrees; NaN when none was measured
 */
public record Apart(
    Factor factor,
    String level,
    int count,
    boolean position,
    boolean rotation,
    double xMm,
    double yMm,
    double rotationDeg) {

  /** Fewest placements whose agreement makes an offset systematic. */
  public static final int ENOUGH = 3;

  /** True when enough placements agree to call it systematic; else it has to be asked about. */
  public boolean systematic() {
    return count >= ENOUGH;
  }
}
