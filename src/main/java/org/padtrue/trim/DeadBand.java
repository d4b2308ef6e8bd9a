package org.padtrue.trim;

/**
 * The band within which a trim is not worth entering: the largest of half the machine's resolution,
 * 5 % of the tightest tolerance the trim touches, and the measuring bias.
 *
 * @param halfWidth mm or degrees
 * @param because what sets it, in words
 */
public record DeadBand(double halfWidth, String because) {
  private static final double SHARE = 0.05;

  /**
   * The band.
   *
   * @param resolution smallest step of the entry
   * @param tolerance tightest tolerance it touches; NaN when none is known
   * @param bias measuring bias that does not average out; 0 when not stated
   */
  public static DeadBand of(double resolution, double tolerance, double bias) {
    double half = 0.5 * resolution;
    String because = "half the machine's resolution";
    if (SHARE * tolerance > half) {
      half = SHARE * tolerance;
      because = "5 % of the tightest tolerance it touches";
    }
    if (bias > half) {
      half = bias;
      because = "the measuring bias";
    }
    return new DeadBand(half, because);
  }

  /** True when a value is worth entering. */
  public boolean beyond(double value) {
    return Math.abs(value) > halfWidth;
  }
}
