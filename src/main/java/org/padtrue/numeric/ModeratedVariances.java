package org.padtrue.numeric;

import org.apache.commons.math3.special.Gamma;

/**
 * Variances of several groups, each leaning on what all groups show.
 *
 * @param variance moderated variance of each group, unit squared
 * @param degreesOfFreedom of each moderated variance
 */
public record ModeratedVariances(double[] variance, double[] degreesOfFreedom) {

  /**
   * Moderates.
   *
   * @param s2 variance of each group, unit squared; ignored where its degrees of freedom are 0
   * @param d degrees of freedom of each
   */
  public static ModeratedVariances of(double[] s2, double[] d) {
    int k = s2.length;
    double ss = 0;
    double dd = 0;
    int seen = 0;
    for (int i = 0; i < k; i++) {
      if (d[i] > 0) {
        ss += d[i] * s2[i];
        dd += d[i];
        seen++;
      }
    }
    double pooled = dd > 0 ? ss / dd : Double.NaN;
    double d0 = Double.POSITIVE_INFINITY;
    double s0 = pooled;
    if (seen > 1) {
      double mean = 0;
      double[] e = new double[k];
      for (int i = 0; i < k; i++) {
        if (d[i] > 0) {
          double v = Math.max(s2[i], 1e-6 * pooled);
          e[i] = Math.log(v) - Gamma.digamma(d[i] / 2) + Math.log(d[i] / 2);
          mean += e[i] / seen;
        }
      }
      double extra = 0;
      for (int i = 0; i < k; i++) {
        if (d[i] > 0) {
          extra += (e[i] - mean) * (e[i] - mean) / (seen - 1) - Gamma.trigamma(d[i] / 2) / seen;
        }
      }
      if (extra > 0) {
        double x = 0.5 + 1 / extra;
        for (int n = 0; n < 50; n++) {
          double t = Gamma.trigamma(x);
          double step = (Gamma.trigamma(x * 1.0001) - t) / (x * 0.0001);
          x = Math.max(x / 3, x + (extra - t) / step);
        }
        d0 = 2 * x;
        s0 = Math.exp(mean + Gamma.digamma(d0 / 2) - Math.log(d0 / 2));
      }
    }
    double[] v = new double[k];
    double[] df = new double[k];
    for (int i = 0; i < k; i++) {
      double own = d[i] > 0 ? d[i] : 0;
      v[i] =
          Double.isInfinite(d0)
              ? pooled
              : (d0 * s0 + (own > 0 ? own * s2[i] : 0)) / (d0 + own);
      df[i] = Double.isInfinite(d0) ? dd : Math.min(dd, d0 + own);
    }
    return new ModeratedVariances(v, df);
  }
}
