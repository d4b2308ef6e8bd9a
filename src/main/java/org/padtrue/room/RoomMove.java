package org.padtrue.room;

/**
 * A move of one placement, to be added to its nominal position: axes of an unturned board, as
 * placed.
 *
 * @param key ref, or column/row/ref where every board has rows of its own
 * @param part part type
 * @param x mm
 * @param y mm
 * @param rotation degrees, counter-clockwise as placed; 0 where no turn was asked for
 * @param margin least margin to the land limits over all boards before, mm; NaN = not judged
 * @param marginAfter the same after
 * @param outside greatest probability of being outside before; NaN = not judged or no scatter
 * @param outsideAfter the same after
 */
public record RoomMove(
    String key,
    String part,
    double x,
    double y,
    double rotation,
    double margin,
    double marginAfter,
    double outside,
    double outsideAfter) {

  /** Length, mm. */
  public double length() {
    return Math.hypot(x, y);
  }
}
