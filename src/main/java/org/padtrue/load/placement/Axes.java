package org.padtrue.load.placement;

import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.quantity.Angles;

/**
 * How a placement file's axes run, and the way from there to the canonical frame (x right, y up,
 * rotation counter-clockwise, seen from the side being placed) and back.
 *
 * <p>A y that grows downwards changes its sign and nothing else: the sense of rotation is stated by
 * itself, as seen by whoever looks at the file's x and y. A bottom placement that the file gives as
 * seen from the top is looked at through the board: seen from below, x points the other way (about
 * the file's own x = 0, y stays) and a turn that was counter-clockwise from above is clockwise, so
 * x and rotation both change sign. A bottom placement that is given as seen from the bottom is
 * taken as it stands. Every one of these steps undoes itself, so the way back is the same.
 *
 * @param yDown true when y grows downwards
 * @param clockwise true when rotations are clockwise positive
 * @param bottomSeenFromTop true when rows of the bottom side are given as seen from the top
 */
public record Axes(boolean yDown, boolean clockwise, boolean bottomSeenFromTop) {

  /** y up, counter-clockwise, bottom as seen from the top. */
  public static Axes withDefaults() {
    return new Axes(false, false, true);
  }

  /** A pose of the file in the canonical frame of its side, or the other way round. */
  public Pose turn(Pose p, Side side) {
    boolean through = side == Side.BOTTOM && bottomSeenFromTop;
    double x = through ? -p.xMm() : p.xMm();
    double y = yDown ? -p.yMm() : p.yMm();
    double r = through != clockwise ? -p.rotationDeg() : p.rotationDeg();
    // adding 0 turns -0.0 into 0.0
    return new Pose(x + 0.0, y + 0.0, Angles.wrap(r));
  }

  /** Plus or minus 1: how a step along the file's x moves the canonical x. */
  public int signX(Side side) {
    return side == Side.BOTTOM && bottomSeenFromTop ? -1 : 1;
  }

  /** Plus or minus 1: how a step along the file's y moves the canonical y. */
  public int signY() {
    return yDown ? -1 : 1;
  }

  /** Plus or minus 1: how the file's rotation turns the canonical one. */
  public int signRotation(Side side) {
    return (side == Side.BOTTOM && bottomSeenFromTop) != clockwise ? -1 : 1;
  }

  /** In words. */
  public String words() {
    return (yDown ? "y down" : "y up")
        + ", rotation "
        + (clockwise ? "clockwise" : "counter-clockwise")
        + ", bottom as seen from the "
        + (bottomSeenFromTop ? "top" : "bottom");
  }
}
