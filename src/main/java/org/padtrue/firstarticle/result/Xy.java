package org.padtrue.firstarticle.result;

/**
 * A pair in x and y, mm unless said otherwise.
 *
 * @param x along x, mm unless said otherwise
 * @param y along y, mm unless said otherwise
 */
public record Xy(double x, double y) {
  /** Nothing known. */
  public static final Xy UNKNOWN = new Xy(Double.NaN, Double.NaN);

  /** Zero in both. */
  public static final Xy ZERO = new Xy(0, 0);
}
