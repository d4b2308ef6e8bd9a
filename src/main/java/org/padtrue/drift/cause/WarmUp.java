package org.padtrue.drift.cause;

import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Regression;
import org.padtrue.numeric.Tail;

/**
 * Exponential settling after the machine was started: amplitude * exp(-minutes running / minutes),
 * fitted together with what else is known to move the series.
 *
 * <p>Amplitudes are in the unit of the series, time constants in minutes; p values are pure
 * numbers.
 *
 * @param amplitude what is added at the moment of starting, unit of the series
 * @param minutes time constant
 * @param amplitudeSe standard error
 * @param minutesSe standard error
 * @param p of the F test against no settling (two parameters)
 * @param pAdjusted Holm, over the family; NaN until the family is known
 */
public record WarmUp(
    double amplitude,
    double minutes,
    double amplitudeSe,
    double minutesSe,
    double p,
    double pAdjusted) {
  private static final double SHORTEST = 2;
  private static final double LONGEST = 240;
  private static final int GRID = 24;

  /**
   * How long to run before less than {@code remaining} is left, minutes; 0 when it never is more.
   */
  public double minutesUntil(double remaining) {
    return remaining >= Math.abs(amplitude)
        ? 0
        : minutes * Math.log(Math.abs(amplitude) / remaining);
  }

  public WarmUp adjusted(double holm) {
    return new WarmUp(amplitude, minutes, amplitudeSe, minutesSe, p, holm);
  }

  /**
   * Fits the settling.
   *
   * @param running minutes since the start of each point; NaN counts as warm
   * @param y values
   * @param sigma relative standard deviations
   * @param other other columns in the model, the constant among them
   * @return null when the points do not tell a time constant between 2 and 240 minutes
   */
  public static @Nullable WarmUp fit(
      double[] running, double[] y, double[] sigma, double[][] other) {
    double t = minutes(running, y, sigma, other);
    return Double.isNaN(t) ? null : of(running, y, sigma, other, t);
  }

  /** The same with its time constant given. */
  public static @Nullable WarmUp of(
      double[] running, double[] y, double[] sigma, double[][] other, double minutes) {
    double[][] columns = new double[other.length + 1][];
    System.arraycopy(other, 0, columns, 0, other.length);
    double without = Regression.fit(other, y, sigma).rss;
    return finish(running, y, sigma, columns, minutes, without);
  }

  /** The time constant that fits best; NaN when the points do not tell one. */
  static double minutes(double[] running, double[] y, double[] sigma, double[][] other) {
    return new Search(running, sigma).minutes(Regression.fit(other, y, sigma));
  }

  /** Finds time constants; what does not depend on the other columns is worked out once. */
  static final class Search {
    private final double[] running;
    private final double[] sigma;
    private final double[] tau = new double[GRID];
    private final double[][] decays = new double[GRID][];

    Search(double[] running, double[] sigma) {
      this.running = running;
      this.sigma = sigma;
      for (int i = 0; i < GRID; i++) {
        tau[i] = SHORTEST * Math.pow(LONGEST / SHORTEST, (double) i / (GRID - 1));
        decays[i] = decay(running, tau[i]);
      }
    }

    /** The best beside a fit without warm-up; NaN when the points do not tell one. */
    double minutes(Regression without) {
      double[] gain = new double[GRID];
      int best = 0;
      for (int i = 0; i < GRID; i++) {
        gain[i] = without.gain(decays[i], sigma);
        best = gain[i] > gain[best] ? i : best;
      }
      return best == 0 || best == GRID - 1
          ? Double.NaN
          : golden(without, tau[best - 1], tau[best + 1]);
    }

    private double golden(Regression without, double from, double to) {
      double g = 0.5 * (Math.sqrt(5) - 1);
      double low = Math.log(from);
      double high = Math.log(to);
      double a = high - g * (high - low);
      double b = low + g * (high - low);
      double fa = gain(without, a);
      double fb = gain(without, b);
      for (int i = 0; i < 24; i++) {
        if (fa > fb) {
          high = b;
          b = a;
          fb = fa;
          a = high - g * (high - low);
          fa = gain(without, a);
        } else {
          low = a;
          a = b;
          fa = fb;
          b = low + g * (high - low);
          fb = gain(without, b);
        }
      }
      return Math.exp(0.5 * (low + high));
    }

    private double gain(Regression without, double logTau) {
      return without.gain(decay(running, Math.exp(logTau)), sigma);
    }
  }

  // Standard errors from the Jacobian: the derivative by the time constant as one more column.
  private static @Nullable WarmUp finish(
      double[] running,
      double[] y,
      double[] sigma,
      double[][] columns,
      double t,
      double rssWithout) {
    int last = columns.length - 1;
    columns[last] = decay(running, t);
    Regression fit = Regression.fit(columns, y, sigma);
    double a = fit.beta[last];
    double[][] jacobian = new double[columns.length + 1][];
    System.arraycopy(columns, 0, jacobian, 0, columns.length);
    double[] byTau = new double[y.length];
    double[] rest = new double[y.length];
    for (int i = 0; i < y.length; i++) {
      byTau[i] =
          a == 0 || Double.isNaN(running[i]) ? 0 : a * running[i] / (t * t) * columns[last][i];
      rest[i] = y[i] - fit.fitted[i];
    }
    jacobian[columns.length] = byTau;
    Regression j = Regression.fit(jacobian, rest, sigma);
    double df = j.degreesOfFreedom();
    if (df < 1 || j.rank < jacobian.length) {
      return null;
    }
    double variance = fit.rss / df;
    double f = (rssWithout - fit.rss) / 2 / variance;
    return new WarmUp(
        a,
        t,
        Math.sqrt(j.covariance[last][last] * variance),
        Math.sqrt(j.covariance[last + 1][last + 1] * variance),
        Tail.fUpper(f, 2, df),
        Double.NaN);
  }

  /** exp(-minutes / tau); 0 for points whose running time is unknown. */
  static double[] decay(double[] running, double tau) {
    double[] d = new double[running.length];
    for (int i = 0; i < d.length; i++) {
      d[i] = Double.isNaN(running[i]) ? 0 : Math.exp(-running[i] / tau);
    }
    return d;
  }
}
