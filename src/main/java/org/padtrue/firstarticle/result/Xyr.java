package org.padtrue.firstarticle.result;

/**
 * Offsets or standard errors in x, y and rotation.
 *
 * @param x mm
 * @param y mm
 * @param rotation degrees
 */
public record Xyr(double x, double y, double rotation) {
  /** Nothing known. */
  public static final Xyr UNKNOWN = new Xyr(Double.NaN, Double.NaN, Double.NaN);

  /** Zero in all three. */
  public static final Xyr ZERO = new Xyr(0, 0, 0);
}
