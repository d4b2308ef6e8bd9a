package org.padtrue.land.risk;

import org.padtrue.land.LandFit;

/**
 * A rounded question to {@link Risk}: whole numbers, so that equal means equal.
 *
 * @param fit the judge
 * @param x mean, 1e-5 mm
 * @param y mean, 1e-5 mm
 * @param rotation mean, 1e-4 degrees, within the symmetry range
 * @param sdX logarithm of the standard deviation, 1e-4; least value = 0
 * @param sdY likewise
 * @param sdRotation likewise, of degrees
 * @param xy correlation, 1e-4
 * @param xr correlation, 1e-4
 * @param yr correlation, 1e-4
 * @param degreesOfFreedom to 0.1, above 20 to 2 %; infinite = normal
 */
record RiskCase(
    LandFit fit,
    long x,
    long y,
    long rotation,
    int sdX,
    int sdY,
    int sdRotation,
    int xy,
    int xr,
    int yr,
    double degreesOfFreedom) {
  private static final double LENGTH = 1e-5;
  private static final double ANGLE = 1e-4;
  private static final double FINE = 1e-4;

  static RiskCase of(LandFit fit, DeviationDistribution d) {
    double rotation = Math.toDegrees(fit.radians(d.drotationDeg()));
    double varR = Double.isNaN(d.varRotation()) ? 0 : d.varRotation();
    double df = d.degreesOfFreedom();
    return new RiskCase(
        fit,
        Math.round(d.dxMm() / LENGTH),
        Math.round(d.dyMm() / LENGTH),
        Math.round(rotation / ANGLE),
        log(d.varX()),
        log(d.varY()),
        log(varR),
        correlation(d.covXY(), d.varX(), d.varY()),
        correlation(d.covXRotation(), d.varX(), varR),
        correlation(d.covYRotation(), d.varY(), varR),
        degreesOfFreedom(df));
  }

  /** Steps of 0.1, above 20 of 2 %: the t hardly changes, and its quantiles are slow. */
  private static double degreesOfFreedom(double df) {
    if (df > 1000) {
      return Double.POSITIVE_INFINITY;
    }
    return df <= 20
        ? Math.max(0.1, Math.round(df * 10) / 10.0)
        : Math.exp(Math.round(Math.log(df) / 0.02) * 0.02);
  }

  private static int log(double variance) {
    // below a picometre a spread is none
    return variance > 1e-18 ? (int) Math.round(Math.log(variance) / 2 / FINE) : Integer.MIN_VALUE;
  }

  private static int correlation(double cov, double a, double b) {
    if (!(a > 1e-18) || !(b > 1e-18) || Double.isNaN(cov)) {
      return 0;
    }
    return (int) Math.round(Math.max(-1, Math.min(1, cov / Math.sqrt(a * b))) / FINE);
  }

  private static double exp(int log) {
    return log == Integer.MIN_VALUE ? 0 : Math.exp(log * FINE);
  }

  double meanX() {
    return x * LENGTH;
  }

  double meanY() {
    return y * LENGTH;
  }

  double meanRad() {
    return Math.toRadians(rotation * ANGLE);
  }

  double spreadX() {
    return exp(sdX);
  }

  double spreadY() {
    return exp(sdY);
  }

  double spreadRad() {
    return Math.toRadians(exp(sdRotation));
  }

  double correlationXY() {
    return xy * FINE;
  }

  double correlationXR() {
    return xr * FINE;
  }

  double correlationYR() {
    return yr * FINE;
  }

  double safeSigmas() {
    return fit.safeSigmas(meanX(), meanY(), meanRad(), spreadX(), spreadY(), spreadRad());
  }
}
