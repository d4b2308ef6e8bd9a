package org.padtrue.history;

/**
 * Under what an article was placed.
 *
 * @param shift name of the shift, empty unknown
 * @param operator who measured, empty unknown
 * @param temperatureC degrees Celsius, NaN unknown
 * @param humidityPercent relative humidity, NaN unknown
 * @param minutesRunning minutes since the machine was started, NaN unknown
 * @param placementsSinceService number of placements since service, NaN unknown
 */
public record Conditions(
    String shift,
    String operator,
    double temperatureC,
    double humidityPercent,
    double minutesRunning,
    double placementsSinceService) {
  /** Nothing known. */
  public static final Conditions UNKNOWN =
      new Conditions("", "", Double.NaN, Double.NaN, Double.NaN, Double.NaN);
}
