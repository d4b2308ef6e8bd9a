package org.padtrue.load.article;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.padtrue.load.text.ProblemList;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Notices when measured poses fit the nominal ones only after an axis is turned over or the sense
 * of rotation is reversed: then the job's {@code axes} or {@code side} are wrong, and every number
 * that followed would be.
 *
 * <p>Speaks only when the poses as they are lie more than 2 mm from nominal (median, their common
 * shift taken off) and the other reading is within a tenth of that and 1 mm.
 */
final class PoseCheck {
  private static final int LEAST = 4;
  private static final double FAR_MM = 2;
  private static final double NEAR_MM = 1;
  private static final double NEAR_DEG = 10;

  private PoseCheck() {}

  private record Reading(double x, double y, String words, String mend) {}

  private static final List<Reading> READINGS =
      List.of(
          new Reading(-1, 1, "x mirrored", "set axes.bottomX or \"side\" in the job"),
          new Reading(1, -1, "y turned over", "set axes.y in the job"),
          new Reading(-1, -1, "the panel turned by 180 degrees", "turn the article's frame"),
          new Reading(25.4, 25.4, "inches", "write the article's unit in its header"),
          new Reading(0.0254, 0.0254, "mils", "write the article's unit in its header"),
          new Reading(0.001, 0.001, "micrometres", "write the article's unit in its header"));

  static void check(Job job, List<Measured> rows, ProblemList problems) {
    if (rows.size() < LEAST || !problems.isEmpty()) {
      return;
    }
    double as = off(rows, 1, 1);
    if (as > FAR_MM) {
      for (Reading r : READINGS) {
        double other = off(rows, r.x, r.y);
        if (other < NEAR_MM && other < as / 10) {
          problems.add("the measured positions fit the nominal ones only with " + r.words, r.mend);
          return;
        }
      }
    }
    checkRotation(job, rows, problems);
  }

  /** Median distance from nominal, the median shift taken off. */
  private static double off(List<Measured> rows, double sx, double sy) {
    ToDoubleFunction<Measured> fx = m -> sx * (m.nominal().xMm() + m.dxMm()) - m.nominal().xMm();
    ToDoubleFunction<Measured> fy = m -> sy * (m.nominal().yMm() + m.dyMm()) - m.nominal().yMm();
    double shiftX = Order.median(rows.stream().mapToDouble(fx).toArray());
    double shiftY = Order.median(rows.stream().mapToDouble(fy).toArray());
    return Order.median(
        rows.stream()
            .mapToDouble(
                m -> Math.hypot(fx.applyAsDouble(m) - shiftX, fy.applyAsDouble(m) - shiftY))
            .toArray());
  }

  /**
   * Counts rows that tell the senses apart. A part at 90 or 270 degrees does not: it may be
   * measured modulo 180, or turned by 180 in its library.
   */
  private static void checkRotation(Job job, List<Measured> rows, ProblemList problems) {
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
    if (reversed >= LEAST && reversed > 9 * as) {
      problems.add(
          "the measured rotations fit the nominal ones only with the other sense of rotation",
          "set axes.rotation in the job, or give the article's rotations counter-clockwise");
    }
  }
}
