package org.padtrue.report.plot.ink;

/**
 * Quantiles of the standard normal distribution, good for pictures. Probabilities and quantiles are
 * pure numbers.
 */
public final class Normal {
  private Normal() {}

  /**
   * Quantile by the rational approximation 26.2.23 of Abramowitz and Stegun, Handbook of
   * Mathematical Functions (1964): error below 4.5e-4, far less than a mark on a chart.
   *
   * @param p probability in (0, 1)
   */
  public static double quantile(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("p = " + p + "; expected 0 < p < 1");
    }
    double tail = Math.min(p, 1 - p);
    double t = Math.sqrt(-2 * Math.log(tail));
    double z =
        t
            - (2.515517 + t * (0.802853 + t * 0.010328))
                / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    return p < 0.5 ? -z : z;
  }
}
