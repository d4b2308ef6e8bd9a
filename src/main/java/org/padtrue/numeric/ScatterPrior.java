package org.padtrue.numeric;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.math3.special.Gamma;

/**
 * What variances of many groups have in common: sigma_k^2 ~ scale df / chi-square(df), estimated
 * from residual variances s_k^2 with d_k degrees of freedom. Plug-in: for many groups; with few, a
 * moderated scatter counts what is left open.
 *
 * <p>{@link #ofMoments} matches mean and variance of log s^2 (Smyth 2004, Stat. Appl. Genet. Mol.
 * Biol. 3, article 3, section 6.2). Groups with 0 degrees of freedom tell nothing and lean wholly
 * on it.
 *
 * <p>Variances are in the squared unit of the caller's values; degrees of freedom are pure numbers.
 *
 * @param scale prior variance, in units of s^2; NaN where no group tells anything
 * @param df prior degrees of freedom; infinite where the groups differ no more than chance makes
 *     them, 0 where only one group tells anything
 */
public record ScatterPrior(double scale, double df) {

  /**
   * By moments of the logarithms. A variance below 1e-5 of the median counts as that.
   *
   * @param s2 residual variances, one a group
   * @param d their degrees of freedom, not negative, not necessarily whole
   */
  public static ScatterPrior ofMoments(double[] s2, double[] d) {
    check(s2, d);
    int[] telling = IntStream.range(0, d.length).filter(k -> d[k] > 1e-15).toArray();
    return moments(
        Arrays.stream(telling).mapToDouble(k -> s2[k]).toArray(),
        Arrays.stream(telling).mapToDouble(k -> d[k]).toArray());
  }

  private static ScatterPrior moments(double[] s2, double[] d) {
    int n = s2.length;
    if (n < 2) {
      return new ScatterPrior(n == 0 ? Double.NaN : s2[0], 0);
    }
    double median = Order.median(s2);
    double least = 1e-5 * (median == 0 ? 1 : median);
    double[] e = new double[n];
    double mean = 0;
    double plain = 0;
    double chance = 0;
    for (int k = 0; k < n; k++) {
      double h = 0.5 * d[k];
      double x = Math.max(s2[k], least);
      e[k] = Math.log(x) - Gamma.digamma(h) + Math.log(h);
      mean += e[k] / n;
      plain += x / n;
      chance += Gamma.trigamma(h) / n;
    }
    double excess = -chance;
    for (double v : e) {
      excess += (v - mean) * (v - mean) / (n - 1);
    }
    if (!(excess > 0)) {
      return new ScatterPrior(plain, Double.POSITIVE_INFINITY);
    }
    double half = trigammaInverse(excess);
    return new ScatterPrior(Math.exp(mean + Gamma.digamma(half) - Math.log(half)), 2 * half);
  }

  /** Moderated variances (df scale + d s^2) / (df + d). */
  public double[] variances(double[] s2, double[] d) {
    double[] out = new double[s2.length];
    for (int k = 0; k < out.length; k++) {
      boolean wholly = Double.isInfinite(df) || d[k] == 0;
      out[k] = wholly ? scale : (df * scale + d[k] * s2[k]) / (df + d[k]);
    }
    return out;
  }

  /** Their degrees of freedom, df + d, no more than all groups have together. */
  public double[] degreesOfFreedom(double[] d) {
    double all = Arrays.stream(d).sum();
    double[] out = new double[d.length];
    for (int k = 0; k < out.length; k++) {
      out[k] = Math.min(df + d[k], all);
    }
    return out;
  }

  /** The y with trigamma(y) = x, by Newton's method on 1 / trigamma, which is convex. */
  public static double trigammaInverse(double x) {
    if (x > 1e7) {
      return 1 / Math.sqrt(x);
    }
    if (x < 1e-6) {
      return 1 / x;
    }
    double y = 0.5 + 1 / x;
    for (int i = 0; i < 60; i++) {
      double tri = Gamma.trigamma(y);
      double step = tri * (1 - tri / x) / tetragamma(y);
      y += step;
      if (Math.abs(step) < 1e-13 * y) {
        break;
      }
    }
    return y;
  }

  /** Second derivative of digamma: recurrence, then its asymptotic series (DLMF 5.15.9). */
  private static double tetragamma(double y) {
    double sum = 0;
    double x = y;
    while (x < 20) {
      sum -= 2 / (x * x * x);
      x++;
    }
    double i = 1 / (x * x);
    return sum - i * (1 + 1 / x + i * (0.5 - i * (1.0 / 6 - i * (1.0 / 6 - i * 0.3))));
  }

  /**
   * Says what is wrong with variances and degrees of freedom.
   *
   * @throws IllegalArgumentException if lengths differ or a number is negative or not finite
   */
  public static void check(double[] s2, double[] d) {
    if (s2.length != d.length || s2.length == 0) {
      throw new IllegalArgumentException(
          "as many variances as degrees of freedom: " + s2.length + " and " + d.length);
    }
    for (int k = 0; k < d.length; k++) {
      if (!(d[k] >= 0) || Double.isInfinite(d[k])) {
        throw new IllegalArgumentException("degrees of freedom of group " + k + ": " + d[k]);
      }
      if (d[k] > 0 && (!(s2[k] >= 0) || Double.isInfinite(s2[k]))) {
        throw new IllegalArgumentException("variance of group " + k + ": " + s2[k]);
      }
    }
  }
}
