package org.padtrue.drift;

import org.jspecify.annotations.Nullable;

/**
 * Temperature and warm-up of one series, fitted beside its slow part.
 *
 * @param temperature effect, or null when temperature is not known or did not vary
 * @param warmUp candidate, or null when the points cannot tell one
 * @param contribution what the two together add to each point; only effects with p under 0.01 enter
 */
record Environment(
    @Nullable TemperatureEffect temperature, @Nullable WarmUp warmUp, double[] contribution) {
  /** An effect weaker than this is not taken off: its estimate would add more than it removes. */
  private static final double ENTERS = 0.01;

  private static final int FEWEST = 8;
  private static final double LEAST_SPREAD_K = 0.2;
  private static final double LEAST_SPREAD_MIN = 5;

  /**
   * Fits both.
   *
   * @param y states
   * @param sigma relative standard deviations
   * @param slow columns of the slow part
   * @param temperatureC NaN where unknown
   * @param running minutes, NaN where unknown
   */
  static Environment fit(
      double[] y, double[] sigma, double[][] slow, double[] temperatureC, double[] running) {
    int n = y.length;
    double[] none = new double[n];
    if (n < FEWEST || slow.length + 4 > n) {
      return new Environment(null, null, none);
    }
    double[] t = centred(temperatureC, LEAST_SPREAD_K);
    boolean knowsTime = centred(running, LEAST_SPREAD_MIN).length > 0;
    double[][] withTemperature = t.length == 0 ? slow : append(slow, t);
    WarmUp warm = knowsTime ? WarmUp.fit(running, y, sigma, withTemperature) : null;
    boolean warmEnters = warm != null && warm.p() < ENTERS;
    double[][] columns =
        warm != null && warmEnters
            ? append(withTemperature, WarmUp.decay(running, warm.minutes()))
            : withTemperature;
    Regression fit = Regression.fit(columns, y, sigma);
    double[] contribution = none;
    TemperatureEffect effect = null;
    if (t.length > 0) {
      effect = TemperatureEffect.of(fit, slow.length);
      if (effect.p() < ENTERS) {
        add(contribution, fit.beta[slow.length], t);
      }
    }
    if (warmEnters) {
      int last = columns.length - 1;
      add(contribution, fit.beta[last], columns[last]);
    }
    return new Environment(effect, warm, contribution);
  }

  // Values minus their mean, unknown ones 0; empty when too few are known or they do not vary.
  private static double[] centred(double[] values, double leastSpread) {
    double sum = 0;
    int known = 0;
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (double v : values) {
      if (Double.isFinite(v)) {
        sum += v;
        known++;
        min = Math.min(min, v);
        max = Math.max(max, v);
      }
    }
    if (known < FEWEST || 2 * known < values.length || max - min < leastSpread) {
      return new double[0];
    }
    double[] c = new double[values.length];
    for (int i = 0; i < c.length; i++) {
      c[i] = Double.isFinite(values[i]) ? values[i] - sum / known : 0;
    }
    return c;
  }

  static double[][] append(double[][] columns, double[] last) {
    double[][] all = new double[columns.length + 1][];
    System.arraycopy(columns, 0, all, 0, columns.length);
    all[columns.length] = last;
    return all;
  }

  private static void add(double[] to, double factor, double[] what) {
    for (int i = 0; i < to.length; i++) {
      to[i] += factor * what[i];
    }
  }
}
