package org.padtrue.land.risk;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.padtrue.land.LandFit;

/**
 * Short-term capability of one axis: deviations of many placements, each divided by its own allowed
 * deviation in the part frame ({@link LandFit#allowed}), against limits of plus and minus one.
 *
 * <p>Short-term: one panel, or a few in a row, show the scatter of an hour, not of a month;
 * long-term indices are lower. Formulas: NIST/SEMATECH e-Handbook 6.1.6. Cp = 1/(3 s), Cpk = (1 -
 * |mean|)/(3 s) in scaled units, where the handbook's general form has (USL - LSL)/(6 s) and
 * min(USL - mean, mean - LSL)/(3 s). Bounds of Cpk: minus z sqrt(1/(9 n) + Cpk^2/(2 (n - 1))), a
 * large-sample approximation that is wide for few placements, as it should be. All are pure
 * numbers.
 *
 * @param count number of values, n
 * @param mean mean of the values, as a share of the allowed deviation, like the limits
 * @param sd standard deviation, n - 1
 * @param lower lower limit
 * @param upper upper limit
 */
public record Capability(int count, double mean, double sd, double lower, double upper) {

  public Capability {
    if (!(lower < upper)) {
      throw new IllegalArgumentException("limits " + lower + " and " + upper + " are not in order");
    }
  }

  /**
   * Of values that are each scaled by their own allowed deviation.
   *
   * @param deviations deviations along one axis of the part frame, mm; NaN is left out
   * @param allowed allowed deviation of each, mm; NaN (not judged) leaves the value out
   */
  public static Capability scaled(double[] deviations, double[] allowed) {
    if (deviations.length != allowed.length) {
      throw new IllegalArgumentException(
          deviations.length + " deviations and " + allowed.length + " allowed deviations");
    }
    int n = 0;
    double mean = 0;
    double squares = 0;
    for (int i = 0; i < deviations.length; i++) {
      double v = deviations[i] / allowed[i];
      if (!Double.isNaN(v) && allowed[i] > 0) {
        n++;
        double step = v - mean;
        mean += step / n;
        squares += step * (v - mean);
      }
    }
    double sd = n > 1 ? Math.sqrt(squares / (n - 1)) : Double.NaN;
    return new Capability(n, n > 0 ? mean : Double.NaN, sd, -1, 1);
  }

  /** Spread against the limits, wherever the mean is; NaN below two values. */
  public double cp() {
    return (upper - lower) / (6 * sd);
  }

  /** Spread and mean against the nearer limit; NaN below two values. */
  public double cpk() {
    return Math.min(cpUpper(), cpLower());
  }

  /** Against the upper limit alone. */
  public double cpUpper() {
    return (upper - mean) / (3 * sd);
  }

  /** Against the lower limit alone. */
  public double cpLower() {
    return (mean - lower) / (3 * sd);
  }

  /** Lower confidence bound of Cpk, one-sided: with this confidence Cpk is at least this. */
  public double cpkLower(double confidence) {
    return cpk() - z(confidence) * cpkError();
  }

  /** Lower 95 % confidence bound of Cpk, one-sided. */
  public double cpkLower95() {
    return cpkLower(0.95);
  }

  private double cpkError() {
    double c = cpk();
    return count < 2 ? Double.NaN : Math.sqrt(1.0 / (9.0 * count) + c * c / (2.0 * (count - 1)));
  }

  private static double z(double p) {
    return new NormalDistribution(null, 0, 1).inverseCumulativeProbability(p);
  }
}
