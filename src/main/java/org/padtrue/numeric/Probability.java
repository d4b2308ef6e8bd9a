package org.padtrue.numeric;

/**
 * A probability from numerical integration.
 *
 * <p>Both are pure numbers.
 *
 * @param value the probability; NaN when there is nothing to judge by
 * @param standardError standard error of the integration (not of the distribution put in); where
 *     {@code value} is 0 because a bound shows it to be negligible, that bound
 * @param points points used; 0 where a bound was enough
 */
public record Probability(double value, double standardError, int points) {
  /** Nothing to judge by. */
  public static final Probability UNKNOWN = new Probability(Double.NaN, Double.NaN, 0);
}
