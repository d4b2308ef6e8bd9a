package org.padtrue.drift.trend;

/**
 * Robust trend of a series after temperature and warm-up are taken off.
 *
 * <p>Slopes are in the unit of the series per day; p values are pure numbers.
 *
 * @param perDay slope, unit of the series per day
 * @param low lower end of the 95 % interval
 * @param high upper end
 * @param p two-sided
 * @param pAdjusted Holm, over the family; NaN until the family is known
 */
public record TrendEffect(double perDay, double low, double high, double p, double pAdjusted) {
  public TrendEffect adjusted(double holm) {
    return new TrendEffect(perDay, low, high, p, holm);
  }
}
