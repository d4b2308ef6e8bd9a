package org.padtrue.door;

import java.util.Arrays;
import java.util.List;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Whether deviations scatter less than anything that is placed and measured.
 *
 * <p>Small deviations alone are no proof of a larger unit: a trimmed panel shows such. But scatter
 * stays whatever is trimmed. Below {@value #LEAST_MM} mm (standard deviation per axis; common
 * practice: good machines place to 5 to 30 um, the finest to 3) it is asked about where something
 * else in the article or the job contradicts it: rotations, which have no unit of length, scatter
 * as they usually do, or a single reading is stated to be far less certain.
 */
final class TooSteady {
  private static final double LEAST_MM = 0.002;

  /** Machines that place to 2 um turn parts to some hundredths of a degree. */
  private static final double USUAL_DEG = 0.05;

  private static final int LEAST_ROTATIONS = 6;

  /** Standard deviations over median absolute deviation, normal distribution. */
  private static final double MAD = 1.4826;

  private TooSteady() {}

  /**
   * @param sdMm the most that the scatter per axis of the deviations as given may be, mm
   * @param rows what was measured
   */
  static boolean is(Job job, double sdMm, List<Measured> rows) {
    double stated = job.measurement().uncertaintyMm();
    return sdMm < LEAST_MM && (stated > 2 * sdMm || rotationScatter(job, rows) >= USUAL_DEG);
  }

  /** Scatter of rotations about their median, degrees, robust; NaN of few. */
  private static double rotationScatter(Job job, List<Measured> rows) {
    double[] r =
        rows.stream()
            .filter(m -> !Double.isNaN(m.dRotationDeg()))
            .mapToDouble(
                m -> Angles.wrap(m.dRotationDeg(), job.partType(m.placement().part()).symmetry()))
            .toArray();
    if (r.length < LEAST_ROTATIONS) {
      return Double.NaN;
    }
    double middle = Order.median(r);
    return MAD * Order.median(Arrays.stream(r).map(v -> Math.abs(v - middle)).toArray());
  }
}
