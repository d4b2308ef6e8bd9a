package org.padtrue.drift.cause;

import org.padtrue.numeric.Regression;
import org.padtrue.numeric.Tail;

/**
 * How a series follows temperature, beside trend or steps and warm-up.
 *
 * <p>Effects are in the unit of the series per kelvin; p values are pure numbers.
 *
 * @param slope unit of the series per kelvin (ppm/K for a scale)
 * @param standardError of the slope
 * @param low lower end of the 95 % interval
 * @param high upper end
 * @param p two-sided
 * @param pAdjusted Holm, over the family; NaN until the family is known
 */
public record TemperatureEffect(
    double slope, double standardError, double low, double high, double p, double pAdjusted) {
  public static TemperatureEffect of(Regression fit, int column) {
    double se = fit.standardError(column);
    double reach = Tail.tTwoSidedQuantile(0.05, fit.degreesOfFreedom()) * se;
    double b = fit.beta[column];
    return new TemperatureEffect(b, se, b - reach, b + reach, fit.p(column), Double.NaN);
  }

  public TemperatureEffect adjusted(double holm) {
    return new TemperatureEffect(slope, standardError, low, high, p, holm);
  }
}
