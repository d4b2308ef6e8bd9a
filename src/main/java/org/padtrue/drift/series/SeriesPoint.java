package org.padtrue.drift.series;

import java.time.Instant;

/**
 * One article's estimate of one term.
 *
 * <p>Value, state, trims and standard error are in the unit of the series.
 *
 * @param at when the article was measured
 * @param article its name in the log
 * @param value observed, unshrunk, in the unit of the series
 * @param state the machine's own state: value minus the trims in force
 * @param trims in force, exact
 * @param standardError of the value, its own; NaN when unknown
 * @param minutesRunning minutes since the machine was started; NaN unknown
 * @param temperatureC degrees Celsius; NaN unknown
 * @param placementsSinceService number of placements since service; NaN unknown
 */
public record SeriesPoint(
    Instant at,
    String article,
    double value,
    double state,
    double trims,
    double standardError,
    double minutesRunning,
    double temperatureC,
    double placementsSinceService) {
  /** With the trims that value and state tell of, to nine decimals. */
  public SeriesPoint(
      Instant at,
      String article,
      double value,
      double state,
      double standardError,
      double minutesRunning,
      double temperatureC,
      double placementsSinceService) {
    this(
        at,
        article,
        value,
        state,
        Math.rint(1e9 * (value - state)) / 1e9,
        standardError,
        minutesRunning,
        temperatureC,
        placementsSinceService);
  }
}
