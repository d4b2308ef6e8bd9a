package org.padtrue.door;

import java.util.List;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Whether measured rotations are counted the other way round.
 *
 * <p>A part at 90 or 270 degrees does not tell: it may be measured modulo 180, or turned by 180 in
 * its library.
 */
final class RotationSense {
  private static final int LEAST = 4;
  private static final double NEAR_DEG = 10;

  private RotationSense() {}

  static boolean reversed(Job job, List<Measured> rows) {
    int as = 0;
    int reversed = 0;
    for (Measured m : rows) {
      double n = m.nominal().rotationDeg();
      int symmetry = Math.max(2, job.partType(m.placement().part()).symmetry());
      boolean tells = Math.abs(Angles.wrap(2 * n, symmetry)) > 3 * NEAR_DEG;
      if (tells && !Double.isNaN(m.dRotationDeg())) {
        as += Math.abs(Angles.wrap(m.dRotationDeg(), symmetry)) < NEAR_DEG ? 1 : 0;
        reversed += Math.abs(Angles.wrap(m.dRotationDeg() + 2 * n, symmetry)) < NEAR_DEG ? 1 : 0;
      }
    }
    return reversed >= LEAST && reversed > 9 * as;
  }
}
