package org.padtrue.drift.chart;

/**
 * One point of a chart.
 *
 * <p>Values are in the unit of the series, those of a CUSUM in standard deviations.
 *
 * @param index index of the series' point
 * @param value what is drawn
 * @param centre centre line there
 * @param lower lower limit there
 * @param upper upper limit there
 * @param out true when outside the limits
 */
public record ChartPoint(
    int index, double value, double centre, double lower, double upper, boolean out) {
  public static ChartPoint of(int index, double value, double centre, double halfWidth) {
    return between(index, value, centre, centre - halfWidth, centre + halfWidth);
  }

  static ChartPoint between(int index, double value, double centre, double lower, double upper) {
    return new ChartPoint(index, value, centre, lower, upper, value > upper || value < lower);
  }
}
