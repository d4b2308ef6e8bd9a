package org.padtrue.drift.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Exponentially weighted moving average. Each point enters with the weight lambda * w_i, w_i = mean
 * variance / own variance, and the average is divided by the sum of weights, so that an uncertain
 * point hardly moves it; with equal uncertainties it is Roberts' EWMA (NIST/SEMATECH e-Handbook
 * 6.3.2.4). Limits are exact for the weights that occurred, not the steady state.
 *
 * <p>Values and sigmas are in the unit of the series; lambda and the limit are pure numbers.
 */
public final class EwmaChart {
  private EwmaChart() {}

  /**
   * The chart.
   *
   * @param x values
   * @param sigma standard deviation of each value when in control
   * @param centre target, also the starting value
   * @param lambda weight of a new point, in (0, 1]
   * @param limit half width in standard deviations of the average
   */
  public static ControlChart of(
      double[] x, double[] sigma, double centre, double lambda, double limit) {
    if (!(lambda > 0 && lambda <= 1)) {
      throw new IllegalArgumentException("lambda = " + lambda + "; expected 0 < lambda <= 1");
    }
    double reference = referenceVariance(sigma);
    double keep = 1 - lambda;
    double weights = 1;
    double sum = 0;
    double variance = 0;
    List<ChartPoint> points = new ArrayList<>();
    for (int i = 0; i < x.length; i++) {
      double own = sigma[i] * sigma[i];
      double w = lambda * reference / own;
      sum = keep * sum + w * (x[i] - centre);
      weights = keep * weights + w;
      variance = keep * keep * variance + w * w * own;
      points.add(
          ChartPoint.of(i, centre + sum / weights, centre, limit * Math.sqrt(variance) / weights));
    }
    return new ControlChart("ewma", points);
  }

  /** Variance of a typical point: the harmonic mean, so that weights average 1. */
  static double referenceVariance(double[] sigma) {
    double sum = 0;
    for (double s : sigma) {
      sum += 1 / (s * s);
    }
    return sigma.length / sum;
  }
}
