package org.padtrue.panel;

import org.padtrue.quantity.Angles;

/**
 * Position and rotation in a frame that the context names.
 *
 * @param xMm mm
 * @param yMm mm
 * @param rotationDeg degrees, counter-clockwise positive; NaN when not measured
 */
public record Pose(double xMm, double yMm, double rotationDeg) {

  /** This pose, given in a child frame, seen from the frame in which the child stands at parent. */
  public Pose seenFrom(Pose parent) {
    double c = Angles.cosDeg(parent.rotationDeg);
    double s = Angles.sinDeg(parent.rotationDeg);
    return new Pose(
        parent.xMm + c * xMm - s * yMm,
        parent.yMm + s * xMm + c * yMm,
        Angles.wrap(rotationDeg + parent.rotationDeg));
  }
}
