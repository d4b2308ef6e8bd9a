package org.padtrue.land.risk;

import org.padtrue.numeric.Probability;
import org.padtrue.numeric.QuasiRandom;

/** Arithmetic that the integrals over {@link QuasiRandom} share. */
public final class Replicates {
  private Replicates() {}

  /**
   * Mean and standard error from weighted sums by replicate. Weighted means: weights that miss one
   * on average by chance cancel where nothing varies. A replicate without weight counts as 1.
   */
  public static Probability estimate(double[] sums, double[] weights, int points) {
    double[] means = new double[sums.length];
    double mean = 0;
    for (int r = 0; r < sums.length; r++) {
      means[r] = weights[r] > 0 ? sums[r] / weights[r] : 1;
      mean += means[r] / sums.length;
    }
    double squares = 0;
    for (double m : means) {
      squares += (m - mean) * (m - mean);
    }
    double error = Math.sqrt(squares / (sums.length - 1.0) / sums.length);
    return new Probability(mean, error, points * sums.length);
  }

  /** Standard error that is small enough for a probability. */
  public static double wanted(double p) {
    return Risk.SMALL + p * (p < 1e-3 ? Risk.RELATIVE_ERROR_OF_RARE : Risk.RELATIVE_ERROR);
  }

  /** Density of the normal over that of the wide normal, at so many times the score. */
  public static double weight(double score, int wide) {
    return wide > 1 ? wide * Math.exp(score * score * (1 - wide * wide) / 2) : 1;
  }
}
