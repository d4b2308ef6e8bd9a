package org.padtrue.drift;

import org.padtrue.numeric.Tail;

/**
 * Variance between articles beyond their own standard errors, y_i = mean + b_i + e_i.
 *
 * <p>Not a case of {@code mixed.reml}: there the variance of e is estimated and known only up to a
 * common factor; here each point's standard error is known, and nothing else is estimated beside
 * the variance of b.
 *
 * <p>Values are in the unit of the series, variances in its square.
 *
 * @param variance of b, not negative
 * @param mean weighted by 1/(variance + se^2)
 * @param meanSe its standard error
 * @param low lower end of the 95 % interval of the variance (Q profile, Viechtbauer 2007)
 * @param high upper end
 */
public record ExcessVariance(double variance, double mean, double meanSe, double low, double high) {

  /** Restricted maximum likelihood. */
  public static ExcessVariance reml(double[] y, double[] se) {
    double top = 0;
    for (double v : y) {
      top = Math.max(top, Math.abs(v - y[0]));
    }
    // Golden section over the standard deviation, where the criterion is well scaled; grid first.
    double best = 0;
    int steps = 60;
    for (int i = 1; i <= steps; i++) {
      double sd = 2 * top * i / steps;
      if (criterion(y, se, sd) < criterion(y, se, best)) {
        best = sd;
      }
    }
    double width = 2 * top / steps;
    double low = Math.max(0, best - width);
    double high = best + width;
    double g = 0.5 * (Math.sqrt(5) - 1);
    for (int i = 0; i < 80; i++) {
      double a = high - g * (high - low);
      double b = low + g * (high - low);
      if (criterion(y, se, a) < criterion(y, se, b)) {
        high = b;
      } else {
        low = a;
      }
    }
    double sd = 0.5 * (low + high);
    return of(criterion(y, se, 0) <= criterion(y, se, sd) ? 0 : sd * sd, y, se);
  }

  private static ExcessVariance of(double t, double[] y, double[] se) {
    double w = 0;
    double wy = 0;
    for (int i = 0; i < y.length; i++) {
      double v = t + se[i] * se[i];
      w += 1 / v;
      wy += y[i] / v;
    }
    int df = y.length - 1;
    return new ExcessVariance(
        t,
        wy / w,
        Math.sqrt(1 / w),
        profile(y, se, Tail.chiSquareQuantile(0.975, df)),
        profile(y, se, Tail.chiSquareQuantile(0.025, df)));
  }

  // Minus twice the restricted log likelihood, constants dropped.
  private static double criterion(double[] y, double[] se, double sd) {
    double log = 0;
    double w = 0;
    for (double s : se) {
      double v = sd * sd + s * s;
      log += Math.log(v);
      w += 1 / v;
    }
    return log + Math.log(w) + q(y, se, sd * sd);
  }

  // Cochran's Q with the variance added to every point; falls as t rises.
  private static double q(double[] y, double[] se, double t) {
    double w = 0;
    double wy = 0;
    for (int i = 0; i < y.length; i++) {
      double v = t + se[i] * se[i];
      w += 1 / v;
      wy += y[i] / v;
    }
    double mean = wy / w;
    double q = 0;
    for (int i = 0; i < y.length; i++) {
      q += (y[i] - mean) * (y[i] - mean) / (t + se[i] * se[i]);
    }
    return q;
  }

  private static double profile(double[] y, double[] se, double wanted) {
    if (q(y, se, 0) <= wanted) {
      return 0;
    }
    double low = 0;
    double high = 1e-12;
    for (double s : se) {
      high = Math.max(high, s * s);
    }
    while (q(y, se, high) > wanted) {
      high *= 4;
    }
    for (int i = 0; i < 100; i++) {
      double mid = 0.5 * (low + high);
      if (q(y, se, mid) > wanted) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return 0.5 * (low + high);
  }
}
