package org.padtrue.land;

import org.padtrue.quantity.Angles;

/** Turns a deviation from the panel frame into the frame of a part placed at a rotation. */
public final class PartFrame {
  private PartFrame() {}

  /**
   * Deviation along the part's own x, mm.
   *
   * @param dxMm deviation along panel x, mm
   * @param dyMm deviation along panel y, mm
   * @param thetaDeg nominal rotation of the placement in the panel frame, degrees
   */
  public static double x(double dxMm, double dyMm, double thetaDeg) {
    return Angles.cosDeg(thetaDeg) * dxMm + Angles.sinDeg(thetaDeg) * dyMm;
  }

  /** Deviation along the part's own y, mm; parameters as in {@link #x}. */
  public static double y(double dxMm, double dyMm, double thetaDeg) {
    return Angles.cosDeg(thetaDeg) * dyMm - Angles.sinDeg(thetaDeg) * dxMm;
  }
}
