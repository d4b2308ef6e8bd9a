package org.padtrue.plan.model;

import java.util.Map;

/**
 * Standard deviation of one reading: scatter of the placement and, where it is known, the
 * uncertainty of the reading.
 *
 * <p>All are in the unit of the response.
 *
 * @param sd of the part types that are not named, in the unit of the response
 * @param byType of those that are
 */
public record MeasuringPlanScatter(double sd, Map<String, Double> byType) {
  public MeasuringPlanScatter {
    byType = Map.copyOf(byType);
  }

  /**
   * Adds the uncertainty of the reading.
   *
   * @param uncertainty standard uncertainty; NaN when not known
   */
  public static MeasuringPlanScatter of(
      double scatter, Map<String, Double> byType, double uncertainty) {
    double u = Double.isNaN(uncertainty) ? 0 : uncertainty;
    Map<String, Double> with = new java.util.HashMap<>();
    byType.forEach((k, v) -> with.put(k, Math.hypot(v, u)));
    return new MeasuringPlanScatter(Math.hypot(scatter, u), with);
  }

  /** Standard deviation of one reading of a part type. */
  public double of(String part) {
    return byType.getOrDefault(part, sd);
  }

  /** What a reading of a part type is multiplied with to scatter by {@code sd}. */
  double scale(String part) {
    return sd / of(part);
  }
}
