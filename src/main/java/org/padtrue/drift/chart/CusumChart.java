package org.padtrue.drift.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Two one-sided cumulative sums (tabular CUSUM, NIST/SEMATECH e-Handbook 6.3.2.3), weighted: the
 * step of a point is w_i ((x_i - target) / sigma_ref - k) with w_i = (sigma_ref / sigma_i)^2. That
 * is the log likelihood ratio for a shift of 2 k sigma_ref, so an uncertain point makes a small
 * step and a run of the chart is counted in points of typical uncertainty.
 *
 * <p>Values and sigmas are in the unit of the series; sums, k and h are pure numbers.
 *
 * @param up sums of excesses, in sigma_ref
 * @param down sums of shortfalls, in sigma_ref, drawn positive
 * @param sigmaRef typical standard deviation of a point
 */
public record CusumChart(ControlChart up, ControlChart down, double sigmaRef) {
  /**
   * The charts.
   *
   * @param x values
   * @param sigma standard deviation of each value when in control
   * @param target the value it should have
   * @param k allowance in sigma, half the shift that matters; 0.5 is the usual one
   * @param h decision interval in sigma
   */
  public static CusumChart of(double[] x, double[] sigma, double target, double k, double h) {
    if (!(h > 0 && k >= 0)) {
      throw new IllegalArgumentException("k = " + k + ", h = " + h + "; expected k >= 0, h > 0");
    }
    double ref = Math.sqrt(EwmaChart.referenceVariance(sigma));
    return new CusumChart(
        oneSide("cusumUp", x, sigma, target, k, h, ref, 1),
        oneSide("cusumDown", x, sigma, target, k, h, ref, -1),
        ref);
  }

  private static ControlChart oneSide(
      String kind,
      double[] x,
      double[] sigma,
      double target,
      double k,
      double h,
      double ref,
      int sign) {
    List<ChartPoint> points = new ArrayList<>();
    double s = 0;
    for (int i = 0; i < x.length; i++) {
      double w = ref * ref / (sigma[i] * sigma[i]);
      s = Math.max(0, s + w * (sign * (x[i] - target) / ref - k));
      points.add(ChartPoint.between(i, s, 0, 0, h));
    }
    return new ControlChart(kind, points);
  }

  /** Index of the point at which the climb that leads to an index began. */
  public static int climbStart(ControlChart side, int index) {
    int i = index;
    while (i > 0 && side.points().get(i - 1).value() > 0) {
      i--;
    }
    return i;
  }
}
