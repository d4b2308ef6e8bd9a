package org.padtrue.firstarticle.result;

/**
 * An expected number of placements outside on one panel, with the interval (95 %) that the
 * scatter's own uncertainty leaves open. Not a range of counts: single panels show whole numbers
 * around it.
 *
 * <p>All are pure numbers.
 *
 * @param value expected number; NaN unknown
 * @param low lower end
 * @param high upper end
 * @param integrationError standard error of the value from the numerical integration, at most
 */
public record Expected(double value, double low, double high, double integrationError) {
  /** Nothing is judged. */
  public static final Expected UNKNOWN =
      new Expected(Double.NaN, Double.NaN, Double.NaN, Double.NaN);
}
