package org.padtrue.imaging.pose;

import java.util.Arrays;

/**
 * What {@link ImageFit}'s residuals say of the picture itself: the noise of each kind of surface,
 * and how its level differs from stretch to stretch. Grey levels squared.
 */
final class LevelScatter {
  /** Spread of a kind that too few stretches show. */
  static final double UNKNOWN = 30 * 30;

  /** A pixel shows one kind's noise from this share on. */
  private static final double MOSTLY = 0.7;

  /** And its level from this on. */
  private static final double PURE = 0.9;

  private static final int KINDS = PartCover.KINDS;

  private final int[] inside;
  private final int[] beyond;
  private final double[] sum;
  private final double[] count;
  private final double[] square = new double[3 * KINDS];
  private final double[] weight = new double[KINDS];

  /**
   * @param inside kind within each stretch's edge
   * @param beyond kind beyond it
   */
  LevelScatter(int[] inside, int[] beyond) {
    this.inside = inside;
    this.beyond = beyond;
    this.sum = new double[3 * KINDS * inside.length];
    this.count = new double[KINDS * inside.length];
  }

  void clear() {
    Arrays.fill(sum, 0);
    Arrays.fill(count, 0);
    Arrays.fill(square, 0);
    Arrays.fill(weight, 0);
  }

  /** Adds a pixel of stretch t: its shares, residuals by channel, and how far it counts. */
  void add(int t, double[] share, double[] residual, double obeys, double trust) {
    for (int k = 0; k < KINDS; k++) {
      if (share[k] < MOSTLY) {
        continue;
      }
      boolean own = k == inside[t] || k == beyond[t];
      double w = share[k] > PURE && own ? obeys * trust : 0;
      count[KINDS * t + k] += w;
      weight[k] += obeys;
      for (int c = 0; c < 3; c++) {
        sum[(3 * t + c) * KINDS + k] += w * residual[c];
        square[KINDS * c + k] += obeys * residual[c] * residual[c];
      }
    }
  }

  /**
   * Noise by channel and kind, into {@code noise}, never below {@code least}; and the stretches'
   * sums made such of whole levels.
   *
   * @param deviation of each stretch when its pixels were added: channel, then inside and beyond
   */
  void judge(double[][][] deviation, double[][] noise, double least) {
    for (int t = 0; t < inside.length; t++) {
      for (int c = 0; c < 3; c++) {
        int o = (3 * t + c) * KINDS;
        sum[o + inside[t]] += count[KINDS * t + inside[t]] * deviation[t][c][0];
        sum[o + beyond[t]] += count[KINDS * t + beyond[t]] * deviation[t][c][1];
      }
    }
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        if (weight[k] > 12) {
          noise[c][k] = Math.max(least, square[KINDS * c + k] / weight[k]);
        }
      }
    }
  }

  /** Variance of the stretches' levels by channel and kind, beyond what noise makes of it. */
  void spread(double[][] noise, double[][] spread) {
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        spread[c][k] = spread(noise[c][k], c, k);
      }
    }
  }

  private double spread(double noise, int c, int k) {
    double s = 0;
    int m = 0;
    for (int t = 0; t < inside.length; t++) {
      double w = count[KINDS * t + k];
      if (w < 3) {
        continue;
      }
      double mean = sum[(3 * t + c) * KINDS + k] / w;
      s += mean * mean - noise / w;
      m++;
    }
    // Never quite none: a stretch that does differ must be able to.
    double least = 1e-3 * noise + 1e-4;
    return m < 3 ? UNKNOWN : Math.max(least, s / m);
  }
}
