package org.padtrue.check;

import org.padtrue.numeric.Tails;

/**
 * Scatter of the second article beside that of the first, once what happened to the trims is taken
 * off; both are pooled by their degrees of freedom.
 */
final class TrimCheckScatter {
  private static final double BEYOND_CHANCE = 0.001;
  private static final int FEWEST = 4;

  private final double[] q = new double[2];
  private final int[] n = new int[2];
  private final double known;

  /**
   * Compares.
   *
   * @param rows the second article, variances as the first article knew them
   * @param total what happened to the trims, by column
   * @param covariance of the terms before the second article
   * @param degreesOfFreedom of the first article's scatter, NaN when not known
   */
  TrimCheckScatter(
      TrimCheckRows rows, double[] total, double[][] covariance, double degreesOfFreedom) {
    TrimCheckModel.Row r = new TrimCheckModel.Row();
    double[][] left = new double[rows.size()][3];
    TrimCheckSums sums = new TrimCheckSums(covariance.length);
    for (int i = 0; i < rows.size(); i++) {
      for (int axis = 0; axis < 3; axis++) {
        if (rows.counts(i, axis)) {
          rows.fill(axis, i, r);
          left[i][axis] = rows.innovation(i, axis) - dot(r, total);
          cut(r, covariance.length);
          sums.add(r.index, r.value, r.n, left[i][axis], 1 / rows.variance(i, axis));
        }
      }
    }
    double[] mean = new TrimCheckGaussian(sums, covariance).mean();
    for (int i = 0; i < rows.size(); i++) {
      for (int axis = 0; axis < 3; axis++) {
        if (rows.counts(i, axis)) {
          rows.fill(axis, i, r);
          cut(r, mean.length);
          double e = left[i][axis] - dot(r, mean);
          q[axis / 2] += left[i][axis] * e / rows.variance(i, axis);
          n[axis / 2]++;
        }
      }
    }
    known = Double.isNaN(degreesOfFreedom) ? n[0] : degreesOfFreedom;
  }

  private static double dot(TrimCheckModel.Row r, double[] v) {
    double s = 0;
    for (int k = 0; k < r.n; k++) {
      s += r.value[k] * v[r.index[k]];
    }
    return s;
  }

  /** Leaves entries of the first columns only. */
  private static void cut(TrimCheckModel.Row r, int columns) {
    int n = 0;
    for (int k = 0; k < r.n; k++) {
      if (r.index[k] < columns) {
        r.index[n] = r.index[k];
        r.value[n++] = r.value[k];
      }
    }
    r.n = n;
  }

  /** Pooled variance of positions over the first article's. */
  double positions() {
    return pooled(known, q[0], n[0]);
  }

  /** The same for rotations. */
  double rotations() {
    return pooled(0.5 * known, q[1], n[1]);
  }

  private static double pooled(double df, double q, int n) {
    return n == 0 ? 1 : (df + q) / (df + n);
  }

  /** Scatter of positions, second article over first; NaN when nothing was measured. */
  double ratio() {
    return n[0] == 0 ? Double.NaN : Math.sqrt(q[0] / n[0]);
  }

  /** True when the second article scatters more than chance explains. */
  boolean grown() {
    return n[0] > FEWEST && Tails.f(q[0] / n[0], n[0], Math.max(1, known)) < BEYOND_CHANCE;
  }
}
