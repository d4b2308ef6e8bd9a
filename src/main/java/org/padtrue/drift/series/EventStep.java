package org.padtrue.drift.series;

/**
 * What a known event did to a series.
 *
 * <p>Sizes are in the unit of the series; p values are pure numbers.
 *
 * @param event the event
 * @param index first point after it
 * @param size state after minus before, unit of the series
 * @param standardError of the size
 * @param p two-sided
 * @param pAdjusted Holm, over the family; NaN until the family is known
 */
public record EventStep(
    KnownEvent event, int index, double size, double standardError, double p, double pAdjusted) {
  public EventStep adjusted(double holm) {
    return new EventStep(event, index, size, standardError, p, holm);
  }
}
