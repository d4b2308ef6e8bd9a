package org.padtrue.drift.chart;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.DoubleUnaryOperator;

/**
 * Limits of the three charts of one series, in standard deviations, and how long each runs in
 * control.
 *
 * <p>Limits in standard deviations and run lengths in points are pure numbers.
 *
 * @param individuals half width of the individuals chart
 * @param ewma half width of the EWMA, in standard deviations of the average
 * @param cusum decision interval of the CUSUM
 * @param arlIndividuals points until a false alarm, on average, centre and spread known
 * @param arlEwma the same for the EWMA
 * @param arlCusum the same for both sides of the CUSUM
 */
public record ChartLimits(
    double individuals,
    double ewma,
    double cusum,
    double arlIndividuals,
    double arlEwma,
    double arlCusum) {
  private static final double TOLERANCE = 2e-3;
  private static final int SCALES = 15;

  // Worked out once for each question: a page asks the same again.
  private static final int MOST_KNOWN = 256;
  private static final Map<List<Number>, ChartLimits> KNOWN = new ConcurrentHashMap<>();
  private static final int SHIFTS = 6;

  /** Beyond this interval the chain is too near singular; the closed form is close enough there. */
  private static final double MARKOV = 12;

  /**
   * Beyond this half width the integral equation is too near singular; points taken alone there.
   */
  private static final double SOLVED = 6.5;

  /**
   * Limits with which one chart calls falsely anywhere in a history with a wanted probability,
   * averaged over what a base of this size leaves unknown: the centre (normal, variance 1/base) and
   * the spread (chi).
   *
   * @param alpha probability of a false alarm for each chart
   * @param points points charted
   * @param base points in the base period
   * @param lambda weight of the EWMA
   * @param k allowance of the CUSUM
   */
  public static ChartLimits of(double alpha, int points, int base, double lambda, double k) {
    if (KNOWN.size() > MOST_KNOWN) {
      KNOWN.clear();
    }
    return KNOWN.computeIfAbsent(
        List.of(alpha, points, base, lambda, k), q -> solved(alpha, points, base, lambda, k));
  }

  private static ChartLimits solved(double alpha, int points, int base, double lambda, double k) {
    Unknown u = new Unknown(base);
    // an error of the centre, in standard deviations of the average
    double gain = Math.sqrt((2 - lambda) / lambda);
    double ind = solve(alpha, l -> u.mean((s, d) -> anyBeyond(l * s, d, points)));
    double ew =
        // each average taken as if it stood alone: neighbours call together, so this errs on the
        // safe
        // side by a tenth of a standard deviation
        solve(alpha, l -> u.mean((s, d) -> anyBeyond(l * s, d * gain, points)));
    double cu =
        solve(
            alpha,
            h ->
                u.mean(
                    (s, d) ->
                        within(
                            points,
                            1
                                / (1 / RunLength.cusumSiegmund(k * s, h * s, d)
                                    + 1 / RunLength.cusumSiegmund(k * s, h * s, -d)))));
    return new ChartLimits(
        ind,
        ew,
        cu,
        RunLength.individuals(ind, 0),
        ew < SOLVED ? RunLength.ewma(lambda, ew, 0) : RunLength.individuals(ew, 0),
        cu < MARKOV ? RunLength.cusum(k, cu, 0) : 0.5 * RunLength.cusumSiegmund(k, cu, 0));
  }

  private static double anyBeyond(double limit, double shift, int points) {
    double p = 1 / RunLength.individuals(limit, shift);
    return -Math.expm1(points * Math.log1p(-p));
  }

  // Run lengths are close to geometric; the start at the centre makes this an upper bound.
  private static double within(int points, double runLength) {
    return -Math.expm1(-points / runLength);
  }

  // The logarithm of the chance is nearly straight in the limit: regula falsi takes a few steps.
  private static double solve(double alpha, DoubleUnaryOperator falseAlarm) {
    DoubleUnaryOperator gap = l -> Math.log(falseAlarm.applyAsDouble(l) / alpha);
    double low = 1;
    double fLow = gap.applyAsDouble(low);
    double high = 4;
    double fHigh = gap.applyAsDouble(high);
    while (fHigh > 0 && high < 1e4) {
      low = high;
      fLow = fHigh;
      high *= 1.5;
      fHigh = gap.applyAsDouble(high);
    }
    for (int i = 0; i < 60 && high - low > TOLERANCE; i++) {
      double mid = Math.min(high, Math.max(low, (low * fHigh - high * fLow) / (fHigh - fLow)));
      // a step short of the end closes the bracket from both sides
      mid = Math.min(high - 0.3 * TOLERANCE, Math.max(low + 0.3 * TOLERANCE, mid));
      double f = gap.applyAsDouble(mid);
      if (Math.abs(f) < 1e-3) {
        return mid;
      }
      if (f > 0) {
        low = mid;
        fLow = f;
      } else {
        high = mid;
        fHigh = f;
      }
    }
    return high;
  }

  private interface Conditional {
    double at(double scale, double shift);
  }

  /**
   * What a base period leaves unknown: estimated over true spread, and true minus assumed centre.
   */
  private static final class Unknown {
    private final double[] scale = new double[SCALES];
    private final double[] scaleWeight = new double[SCALES];
    private final double[] shift = new double[SHIFTS];
    private final double[] shiftWeight = new double[SHIFTS];

    Unknown(int base) {
      double df = Math.max(1, 0.605 * (base - 1));
      for (int i = 0; i < SCALES; i++) {
        double u = 6 * (2.0 * i / (SCALES - 1) - 1) / Math.sqrt(2 * df);
        scale[i] = Math.exp(u);
        // density of ln s for s^2 = chi-square / df, relative to its value at s = 1
        scaleWeight[i] = Math.exp(df * u - 0.5 * df * (scale[i] * scale[i] - 1));
      }
      for (int i = 0; i < SHIFTS; i++) {
        double z = 5.0 * i / (SHIFTS - 1);
        shift[i] = z / Math.sqrt(base);
        shiftWeight[i] = (i == 0 ? 0.5 : 1) * Math.exp(-0.5 * z * z);
      }
    }

    double mean(Conditional f) {
      double sum = 0;
      double weights = 0;
      for (int i = 0; i < SCALES; i++) {
        for (int j = 0; j < SHIFTS; j++) {
          double w = scaleWeight[i] * shiftWeight[j];
          weights += w;
          if (w > 1e-12) {
            sum += w * f.at(scale[i], shift[j]);
          }
        }
      }
      return sum / weights;
    }
  }
}
