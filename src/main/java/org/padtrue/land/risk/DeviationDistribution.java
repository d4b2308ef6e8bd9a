package org.padtrue.land.risk;

import org.padtrue.quantity.Angles;

/**
 * Distribution of the deviation of one placement on a panel yet to be placed: multivariate normal,
 * or multivariate t when the spread itself was estimated from few placements.
 *
 * @param dxMm mean along x, mm
 * @param dyMm mean along y, mm
 * @param drotationDeg mean rotation deviation, degrees; NaN = never measured, position alone counts
 * @param varX variance along x, mm^2 (of a t: the squared scale)
 * @param varY variance along y, mm^2
 * @param varRotation variance of rotation, deg^2
 * @param covXY covariance of x and y, mm^2
 * @param covXRotation covariance of x and rotation, mm deg
 * @param covYRotation covariance of y and rotation, mm deg
 * @param degreesOfFreedom of the t; infinite = normal
 */
public record DeviationDistribution(
    double dxMm,
    double dyMm,
    double drotationDeg,
    double varX,
    double varY,
    double varRotation,
    double covXY,
    double covXRotation,
    double covYRotation,
    double degreesOfFreedom) {

  public DeviationDistribution {
    varX = notNegative(varX);
    varY = notNegative(varY);
    varRotation = notNegative(varRotation);
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "degreesOfFreedom = " + degreesOfFreedom + "; expected more than 0");
    }
  }

  /** A sum that should be zero may come out as a little less; real negatives are a mistake. */
  public static double notNegative(double variance) {
    if (variance < -1e-12) {
      throw new IllegalArgumentException("a variance is negative: " + variance);
    }
    return variance < 0 ? 0 : variance;
  }

  /** Independent normal coordinates; means and standard deviations in mm and degrees. */
  public static DeviationDistribution independent(
      double dxMm, double dyMm, double drotationDeg, double sdX, double sdY, double sdRotation) {
    return new DeviationDistribution(
        dxMm,
        dyMm,
        drotationDeg,
        sdX * sdX,
        sdY * sdY,
        sdRotation * sdRotation,
        0,
        0,
        0,
        Double.POSITIVE_INFINITY);
  }

  /** The same seen in the frame of a part placed at theta (panel frame to part frame). */
  public DeviationDistribution inPartFrame(double thetaDeg) {
    double c = Angles.cosDeg(thetaDeg);
    double s = Angles.sinDeg(thetaDeg);
    return new DeviationDistribution(
        c * dxMm + s * dyMm,
        c * dyMm - s * dxMm,
        drotationDeg,
        c * c * varX + 2 * c * s * covXY + s * s * varY,
        s * s * varX - 2 * c * s * covXY + c * c * varY,
        varRotation,
        c * s * (varY - varX) + (c * c - s * s) * covXY,
        c * covXRotation + s * covYRotation,
        c * covYRotation - s * covXRotation,
        degreesOfFreedom);
  }

  /** The same mean, with the covariance of an independent further source added. */
  public DeviationDistribution plusCovarianceOf(DeviationDistribution o) {
    return new DeviationDistribution(
        dxMm,
        dyMm,
        drotationDeg,
        varX + o.varX,
        varY + o.varY,
        varRotation + o.varRotation,
        covXY + o.covXY,
        covXRotation + o.covXRotation,
        covYRotation + o.covYRotation,
        degreesOfFreedom);
  }

  /** The same mean, with every variance and covariance multiplied. */
  public DeviationDistribution withCovarianceTimes(double factor) {
    return new DeviationDistribution(
        dxMm,
        dyMm,
        drotationDeg,
        varX * factor,
        varY * factor,
        varRotation * factor,
        covXY * factor,
        covXRotation * factor,
        covYRotation * factor,
        degreesOfFreedom);
  }

  /** The same with other degrees of freedom. */
  public DeviationDistribution withDegreesOfFreedom(double df) {
    return new DeviationDistribution(
        dxMm, dyMm, drotationDeg, varX, varY, varRotation, covXY, covXRotation, covYRotation, df);
  }
}
