package org.padtrue.drift.cause;

/** Temperature and running time of a series' points as far as they can tell anything. */
public final class Environment {
  private static final int FEWEST = 8;
  private static final double LEAST_SPREAD_K = 0.2;
  private static final double LEAST_SPREAD_MIN = 5;

  /** Minus its mean, 0 where unknown; empty when too few are known or it did not vary. */
  public final double[] temperature;

  /** Minutes, NaN where unknown; empty likewise. */
  public final double[] running;

  public Environment(double[] temperatureC, double[] minutesRunning) {
    temperature = centred(temperatureC, LEAST_SPREAD_K);
    running = centred(minutesRunning, LEAST_SPREAD_MIN).length > 0 ? minutesRunning : new double[0];
  }

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
}
