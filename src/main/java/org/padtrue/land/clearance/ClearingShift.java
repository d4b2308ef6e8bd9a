package org.padtrue.land.clearance;

/**
 * A shift of one placement that clears it from a neighbour.
 *
 * @param id the placement to move
 * @param dxMm along panel x, mm
 * @param dyMm along panel y, mm
 * @param gapAfter gap to the neighbour then, mm
 * @param marginBefore what its lands leave it now, mm
 * @param marginAfter what its lands leave it then, mm; not negative
 */
public record ClearingShift(
    String id, double dxMm, double dyMm, double gapAfter, double marginBefore, double marginAfter) {

  /** Length of the shift, mm. */
  public double sizeMm() {
    return Math.hypot(dxMm, dyMm);
  }
}
