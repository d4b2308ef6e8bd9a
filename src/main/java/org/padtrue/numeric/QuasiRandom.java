package org.padtrue.numeric;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.random.MersenneTwister;
import org.apache.commons.math3.random.SobolSequenceGenerator;

/**
 * Sobol points in three dimensions, eight times over, each time shifted (modulo 1) by a fixed
 * random vector: the eight means scatter by the integration error. Seed and shifts are constants,
 * so the same input gives the same result. Computed once, shared by all.
 */
public final class QuasiRandom {
  public static final int REPLICATES = 8;
  public static final int MOST = 2048;
  private static final int DIMENSIONS = 3;
  private static final long SEED = 20260101;

  private static final QuasiRandom SHARED = new QuasiRandom();

  /** Standard normal scores, [dimension][replicate * MOST + point]. */
  public final double[][] z = new double[DIMENSIONS][REPLICATES * MOST];

  /** Third coordinate again, uniform in (0, 1). */
  private final double[] u = new double[REPLICATES * MOST];

  private record Family(double df, int wide) {}

  private final Map<Family, double[]> scales = new ConcurrentHashMap<>();

  private QuasiRandom() {
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    MersenneTwister random = new MersenneTwister(SEED);
    double[][] shifts = new double[REPLICATES][DIMENSIONS];
    for (double[] s : shifts) {
      for (int d = 0; d < DIMENSIONS; d++) {
        s[d] = random.nextDouble();
      }
    }
    SobolSequenceGenerator sobol = new SobolSequenceGenerator(DIMENSIONS);
    for (int i = 0; i < MOST; i++) {
      double[] p = sobol.nextVector();
      for (int r = 0; r < REPLICATES; r++) {
        int at = r * MOST + i;
        z[0][at] = normal.inverseCumulativeProbability(shifted(p[0], shifts[r][0]));
        z[1][at] = normal.inverseCumulativeProbability(shifted(p[1], shifts[r][1]));
        u[at] = shifted(p[2], shifts[r][2]);
        z[2][at] = normal.inverseCumulativeProbability(u[at]);
      }
    }
  }

  public static QuasiRandom shared() {
    return SHARED;
  }

  private static double shifted(double x, double shift) {
    double s = x + shift;
    s -= Math.floor(s);
    return Math.min(Math.max(s, 1e-12), 1 - 1e-12);
  }

  /**
   * Factors on the standard deviation that turn a normal into a t: sqrt(df / chi-square), for the
   * first points of every replicate. Quantiles of chi-square are slow, so only what is asked for is
   * computed, and kept.
   *
   * @param points points of each replicate that are needed
   * @param wide 1: as they come; more: small chi-squares, which make far deviations, are drawn more
   *     often (the uniform coordinate is raised to this power); {@link #weight} makes up for it
   * @return [replicate * points known + point], points known = length / replicates
   */
  public double[] scales(double df, int points, int wide) {
    Family family = new Family(df, wide);
    double[] known = scales.get(family);
    if (known == null || known.length < points * REPLICATES) {
      known = computeScales(family, points, known == null ? new double[0] : known);
      scales.put(family, known);
    }
    return known;
  }

  private double[] computeScales(Family family, int points, double[] known) {
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, family.df);
    int old = known.length / REPLICATES;
    double[] out = new double[points * REPLICATES];
    for (int r = 0; r < REPLICATES; r++) {
      System.arraycopy(known, r * old, out, r * points, old);
      for (int i = old; i < points; i++) {
        double p = Math.max(1e-15, Math.pow(u[r * MOST + i], family.wide));
        out[r * points + i] = Math.sqrt(family.df / chi.inverseCumulativeProbability(p));
      }
    }
    return out;
  }

  /** Weight of a point whose uniform coordinate was raised to a power. */
  public double weight(int at, int wide) {
    return wide * Math.pow(u[at], wide - 1);
  }
}
