package org.padtrue.trim;

/**
 * The band within which a correction is not worth entering: the larger of half the machine's
 * resolution and the measuring bias.
 *
 * <p>All are in mm or degrees, as the entry is.
 *
 * @param halfWidth mm or degrees
 * @param because what sets it, in words
 */
public record DeadBand(double halfWidth, String because) {
  private static final double SHARE = 0.05;

  /**
   * The band of a decision on one article: what is known well is not left because limits are wide.
   *
   * @param resolution smallest step of the entry
   * @param bias measuring bias that does not average out; 0 when not stated
   */
  public static DeadBand of(double resolution, double bias) {
    double half = 0.5 * resolution;
    return bias > half
        ? new DeadBand(bias, "the measuring bias")
        : new DeadBand(half, "half the machine's resolution");
  }

  /**
   * The no-adjustment limit of a series over time: also 5 % of the tightest tolerance it touches,
   * so that a drift is not followed from article to article.
   *
   * @param resolution smallest step of the entry
   * @param tolerance tightest tolerance it touches; NaN when none is known
   * @param bias measuring bias that does not average out; 0 when not stated
   */
  public static DeadBand noAdjustment(double resolution, double tolerance, double bias) {
    DeadBand b = of(resolution, bias);
    return SHARE * tolerance > b.halfWidth
        ? new DeadBand(SHARE * tolerance, "5 % of the tightest tolerance it touches")
        : b;
  }

  /** True when a value is worth entering. */
  public boolean beyond(double value) {
    return Math.abs(value) > halfWidth;
  }
}
