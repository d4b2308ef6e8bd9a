package org.padtrue.drift;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Tail;

/**
 * When a term with a trend reaches a limit, trims in force counted.
 *
 * @param limit the limit it runs into, signed, unit of the series
 * @param at when the fitted line reaches it
 * @param low earliest, 95 % (Fieller's interval)
 * @param high latest; null when the interval has no end
 * @param beyond true when it is beyond the limit already; all times are then the last article's
 */
public record Forecast(
    double limit, Instant at, Instant low, @Nullable Instant high, boolean beyond) {

  private static final double MILLIS_PER_DAY = 86_400_000.0;

  /** Nobody plans further than ten years. */
  private static final double FARTHEST_DAYS = 3652;

  /**
   * Forecasts from a line at the last point.
   *
   * @param last time of the last point
   * @param level observed level there
   * @param perDay slope
   * @param varLevel variance of the level
   * @param covariance of level and slope
   * @param varSlope variance of the slope
   * @param df degrees of freedom of those
   * @param limit size of the limit, positive
   * @return null when it is not reached within ten years
   */
  static @Nullable Forecast of(
      Instant last,
      double level,
      double perDay,
      double varLevel,
      double covariance,
      double varSlope,
      double df,
      double limit) {
    if (Math.abs(level) >= limit) {
      return new Forecast(Math.copySign(limit, level), last, last, last, true);
    }
    double target = Math.copySign(limit, perDay);
    double days = (target - level) / perDay;
    if (!(days < FARTHEST_DAYS)) {
      return null;
    }
    double q = Tail.tTwoSidedQuantile(0.05, df);
    double gap = target - level;
    // (gap - b d)^2 = q^2 (v_level + 2 d c + d^2 v_slope), a quadratic in the days d
    double a = perDay * perDay - q * q * varSlope;
    double b = -2 * (gap * perDay + q * q * covariance);
    double c = gap * gap - q * q * varLevel;
    double root = b * b - 4 * a * c;
    double low = 0;
    double high = Double.POSITIVE_INFINITY;
    if (a > 0 && root >= 0) {
      low = Math.max(0, (-b - Math.sqrt(root)) / (2 * a));
      high = (-b + Math.sqrt(root)) / (2 * a);
    } else if (a < 0 && root >= 0) {
      low = Math.max(0, (-b - Math.sqrt(root)) / (2 * a));
    }
    low = Math.min(low, days);
    return new Forecast(
        target,
        after(last, days),
        after(last, low),
        high < FARTHEST_DAYS ? after(last, Math.max(high, days)) : null,
        false);
  }

  private static Instant after(Instant from, double days) {
    return from.plusMillis(Math.round(days * MILLIS_PER_DAY));
  }
}
