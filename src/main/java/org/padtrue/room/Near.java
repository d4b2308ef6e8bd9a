package org.padtrue.room;

import org.padtrue.land.clearance.OutlinePair;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.panel.Pose;

/**
 * Two items that may come near each other.
 *
 * @param a first
 * @param b second
 * @param outline their outlines
 * @param spread how they scatter against each other; all 0 without an analysis
 */
record Near(RoomItem a, RoomItem b, OutlinePair outline, PairSpread spread) {

  boolean scatters() {
    return spread.varX() + spread.varY() + spread.varRotationA() + spread.varRotationB() > 0;
  }

  double gap(Pose pa, Pose pb) {
    return outline.gap(pa, pb);
  }

  /** Probability that the gap is less than wanted; 0 or 1 without scatter. */
  double below(double wanted, Pose pa, Pose pb) {
    if (!scatters()) {
      return gap(pa, pb) < wanted ? 1 : 0;
    }
    return outline.below(wanted, pa, pb, spread).value();
  }

  /** Standard deviation along a direction, both rotations counted at the parts' reach, mm. */
  double sd(double nx, double ny) {
    double turnA = outline.reachA() * outline.reachA() * rad2(spread.varRotationA());
    double turnB = outline.reachB() * outline.reachB() * rad2(spread.varRotationB());
    return Math.sqrt(
        Math.max(
            0,
            nx * nx * spread.varX()
                + 2 * nx * ny * spread.covXY()
                + ny * ny * spread.varY()
                + turnA
                + turnB));
  }

  private static double rad2(double varDeg) {
    return varDeg * Math.toRadians(1) * Math.toRadians(1);
  }
}
