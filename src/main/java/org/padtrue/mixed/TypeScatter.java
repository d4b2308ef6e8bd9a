package org.padtrue.mixed;

import java.util.Arrays;
import java.util.List;

/**
 * Scatter of one placement by part type, measuring included: what no offset removes.
 *
 * <p>Variances are in mm^2 (deg^2 for rotations); factors and degrees of freedom are pure numbers.
 *
 * @param types names of the part types
 * @param variance moderated variance per axis of each type, mean of the axes; mm^2 (deg^2 for
 *     rotations)
 * @param degreesOfFreedom of each moderated variance
 * @param own REML variance of each type alone, before it leans on the others; NaN where its rows
 *     carry none
 * @param ownDegreesOfFreedom of {@code own}
 * @param measuring mean square of the stated uncertainties of each type; NaN not stated
 * @param other variance of a type that was not measured
 * @param otherDegreesOfFreedom of {@code other}
 * @param fx factor of x, 1 where the axes are alike; fx + fy = 2
 * @param fy factor of y
 * @param axesTurn true when x and y of the factors are the part's own axes, false for the panel's
 */
public record TypeScatter(
    List<String> types,
    double[] variance,
    double[] degreesOfFreedom,
    double[] own,
    double[] ownDegreesOfFreedom,
    double[] measuring,
    double other,
    double otherDegreesOfFreedom,
    double fx,
    double fy,
    boolean axesTurn) {

  /** One variance for all. */
  static TypeScatter equal(
      List<String> types, double variance, double df, double measuringVariance) {
    double[] v = new double[types.size()];
    double[] d = new double[types.size()];
    double[] m = new double[types.size()];
    Arrays.fill(v, variance);
    Arrays.fill(d, df);
    Arrays.fill(m, measuringVariance);
    return new TypeScatter(types, v, d, v, d, m, variance, df, 1, 1, false);
  }

  /** The same with all variances times a factor. */
  TypeScatter times(double f) {
    double[] v = variance.clone();
    double[] o = own.clone();
    for (int k = 0; k < v.length; k++) {
      v[k] *= f;
      o[k] *= f;
    }
    return new TypeScatter(
        types,
        v,
        degreesOfFreedom,
        o,
        ownDegreesOfFreedom,
        measuring,
        f * other,
        otherDegreesOfFreedom,
        fx,
        fy,
        axesTurn);
  }

  /** Variance of a type, mean of the axes, measuring included. */
  public double variance(String type) {
    int k = types.indexOf(type);
    return k < 0 ? other : variance[k];
  }

  /** Its degrees of freedom. */
  public double degreesOfFreedom(String type) {
    int k = types.indexOf(type);
    return k < 0 ? otherDegreesOfFreedom : degreesOfFreedom[k];
  }

  /** True when a type's variance rests on the other types more than on its own placements. */
  public boolean leans(String type) {
    int k = types.indexOf(type);
    return k < 0 || !(2 * ownDegreesOfFreedom[k] >= degreesOfFreedom[k]);
  }

  /** Variance of placing a type, mean of the axes, measuring taken off; never 0. */
  public double placing(String type) {
    int k = types.indexOf(type);
    return k < 0
        ? Placing.variance(other, otherDegreesOfFreedom, meanMeasuring())
        : Placing.variance(variance[k], degreesOfFreedom[k], measuring[k]);
  }

  private double meanMeasuring() {
    return Arrays.stream(measuring).average().orElse(Double.NaN);
  }

  /**
   * Shares of the axes at a placement.
   *
   * @param cos cosine of the placement's rotation
   * @param sin sine of it
   * @return factors xx, yy, xy of a variance that is the mean of the axes, panel frame
   */
  public double[] axes(double cos, double sin) {
    if (!axesTurn) {
      return new double[] {fx, fy, 0};
    }
    return new double[] {
      cos * cos * fx + sin * sin * fy, sin * sin * fx + cos * cos * fy, cos * sin * (fx - fy)
    };
  }
}
