package org.padtrue.land.risk;

import java.util.List;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.padtrue.land.LandFit;
import org.padtrue.numeric.Probability;

/**
 * Expected number of placements outside on one panel.
 *
 * <p>The expectation is the sum of the probabilities, whether or not placements move together. The
 * interval says how far it moves with what is known of the scatter: the scatter variance was
 * estimated with some degrees of freedom, so it lies (95 %) between df/chi-square(0.975) and
 * df/chi-square(0.025) times the estimate, and the expectation is computed at both ends.
 * Uncertainty of the offsets is inside every probability. Not a range of counts: a single panel
 * shows whole numbers around it.
 *
 * <p>Expected numbers and degrees of freedom are pure numbers.
 *
 * @param perPanel expected number on one panel
 * @param low at the low end of the scatter
 * @param high at the high end of the scatter
 * @param integrationError standard error of {@code perPanel} from the integration, at most (the
 *     replicates share their points, so errors are added, not averaged)
 * @param judged placements that have a limit
 */
public record ExpectedOutside(
    double perPanel, double low, double high, double integrationError, int judged) {
  private static final double CONFIDENCE = 0.95;
  private static final double NEVER = 1e-12;
  private static final double LITTLE = 1.2;

  /**
   * One placement of the next panel.
   *
   * @param fit the judge of its part type
   * @param scatter mean deviation, and the covariance that scatters anew on every panel
   * @param fixed covariance of everything else: parameters, registration; its mean is not used
   */
  public record Case(LandFit fit, DeviationDistribution scatter, DeviationDistribution fixed) {
    Probability probability(Risk risk) {
      return risk.outside(
          fit, scatter.plusCovarianceOf(fixed).withDegreesOfFreedom(fixed.degreesOfFreedom()));
    }

    DeviationDistribution withScatterTimes(double factor) {
      return scatter
          .withCovarianceTimes(factor)
          .plusCovarianceOf(fixed)
          .withDegreesOfFreedom(Double.POSITIVE_INFINITY);
    }
  }

  /**
   * Sums over placements whose probabilities are known already.
   *
   * @param risk integrator
   * @param cases judged placements
   * @param known the probability of each
   * @param scatterDegreesOfFreedom of the scatter estimate; infinite = known, no interval
   */
  public static ExpectedOutside of(
      Risk risk, List<Case> cases, List<Probability> known, double scatterDegreesOfFreedom) {
    double lowFactor = 1;
    double highFactor = 1;
    if (!Double.isInfinite(scatterDegreesOfFreedom)) {
      ChiSquaredDistribution chi = new ChiSquaredDistribution(null, scatterDegreesOfFreedom);
      double half = (1 - CONFIDENCE) / 2;
      lowFactor = scatterDegreesOfFreedom / chi.inverseCumulativeProbability(1 - half);
      highFactor = scatterDegreesOfFreedom / chi.inverseCumulativeProbability(half);
    }
    double sum = 0;
    double low = 0;
    double high = 0;
    double error = 0;
    for (int i = 0; i < cases.size(); i++) {
      Case c = cases.get(i);
      Probability p = known.get(i);
      sum += p.value();
      error += p.standardError();
      if (p.value() < NEVER && highFactor < LITTLE) {
        // 7 SDs away; a tenth more or less scatter keeps it beyond 6
        low += p.value();
        high += p.value();
      } else {
        low += risk.outside(c.fit(), c.withScatterTimes(lowFactor)).value();
        high += risk.outside(c.fit(), c.withScatterTimes(highFactor)).value();
      }
    }
    return new ExpectedOutside(sum, Math.min(low, sum), Math.max(high, sum), error, cases.size());
  }
}
