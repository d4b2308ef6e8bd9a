package org.padtrue.land;

import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.risk.DeviationDistribution;

/** Normal coordinates that do not lean on each other; mm and degrees. */
public final class Independent {
  private Independent() {}

  /** Means and standard deviations of one part. */
  public static DeviationDistribution part(
      double dxMm, double dyMm, double drotationDeg, double sdX, double sdY, double sdRotation) {
    return new DeviationDistribution(
        dxMm,
        dyMm,
        drotationDeg,
        sdX * sdX,
        sdY * sdY,
        sdRotation * sdRotation,
        0,
        0,
        0,
        Double.POSITIVE_INFINITY);
  }

  /** Standard deviations of two parts, each alike in x and y. */
  public static PairSpread pair(double sdA, double sdB, double sdRotA, double sdRotB) {
    double v = sdA * sdA + sdB * sdB;
    return new PairSpread(v, v, 0, sdRotA * sdRotA, sdRotB * sdRotB);
  }
}
