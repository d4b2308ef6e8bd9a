package org.padtrue.report.plot.ink;

/**
 * Range of an axis.
 *
 * <p>Both ends are in the unit of the axis.
 *
 * @param low lower end
 * @param high upper end, above the lower
 */
public record Range(double low, double high) {

  double length() {
    return high - low;
  }

  public boolean contains(double v) {
    return v >= low && v <= high;
  }

  /** From -limit to +limit. */
  public static Range symmetric(double limit) {
    return new Range(-limit, limit);
  }

  /** The next number up of 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8 times a power of ten. */
  public static double roundUp(double v) {
    if (!(v > 0) || Double.isInfinite(v)) {
      return 1;
    }
    double power = Math.pow(10, Math.floor(Math.log10(v)));
    for (double m : new double[] {1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10}) {
      if (v <= m * power * (1 + 1e-9)) {
        return m * power;
      }
    }
    return 10 * power;
  }

  /** The largest of 1, 2, 5 times a power of ten that is not above v. */
  public static double roundDown125(double v) {
    if (!(v > 0) || Double.isInfinite(v)) {
      return 1;
    }
    double power = Math.pow(10, Math.floor(Math.log10(v)));
    double m = v / power;
    return (m >= 5 ? 5 : m >= 2 ? 2 : 1) * power;
  }
}
