package org.padtrue.trim;

/** Rounding to what a machine accepts. Values are in the unit of the caller. */
public final class Step {
  private Step() {}

  /** The multiple of a step that is nearest, halves away from zero; never -0. */
  public static double round(double value, double step) {
    double k = Math.floor(Math.abs(value) / step + 0.5);
    double r = Math.copySign(k, value) * step;
    // A multiple of 0.01 should print as 0.07, not 0.07000000000000001.
    return new java.math.BigDecimal(r).round(new java.math.MathContext(12)).doubleValue() + 0.0;
  }
}
