package org.padtrue.numeric;

import java.util.Arrays;

/**
 * Cholesky factor with diagonal pivoting of a symmetric positive semidefinite matrix: its rank, its
 * null space and solutions of systems whose right side lies in its range (Higham 2002, Accuracy and
 * Stability of Numerical Algorithms, section 10.3, from memory).
 *
 * <p>Entries are in the units of the caller.
 */
public final class SemidefiniteCholesky {
  /** Pivots below this share of a column's own size are exact dependences blurred by rounding. */
  private static final double TOLERANCE = 1e-9;

  private final int n;
  private final int[] pivot;
  private final double[] scale;
  private final double[][] l;
  private int rank;

  /**
   * @param a the matrix, not changed; a column of zeros is allowed
   */
  public SemidefiniteCholesky(double[][] a) {
    n = a.length;
    pivot = new int[n];
    scale = new double[n];
    l = new double[n][];
    double[] left = new double[n];
    for (int i = 0; i < n; i++) {
      pivot[i] = i;
      scale[i] = a[i][i] > 0 ? 1 / Math.sqrt(a[i][i]) : 0;
      left[i] = a[i][i] > 0 ? 1 : 0;
      l[i] = new double[n];
    }
    factor(a, left);
  }

  /** Row i of {@code l} belongs to unknown i; column k to the k-th pivot. */
  private void factor(double[][] a, double[] left) {
    for (rank = 0; rank < n; rank++) {
      int best = rank;
      for (int k = rank + 1; k < n; k++) {
        if (left[pivot[k]] > left[pivot[best]]) {
          best = k;
        }
      }
      int p = pivot[best];
      if (left[p] <= TOLERANCE) {
        break;
      }
      pivot[best] = pivot[rank];
      pivot[rank] = p;
      double root = Math.sqrt(left[p]);
      l[p][rank] = root;
      for (int k = rank + 1; k < n; k++) {
        int i = pivot[k];
        double s = a[i][p] * scale[i] * scale[p];
        for (int m = 0; m < rank; m++) {
          s -= l[i][m] * l[p][m];
        }
        l[i][rank] = s / root;
        left[i] -= l[i][rank] * l[i][rank];
      }
    }
  }

  /** Vectors that span the null space, one row each. */
  public double[][] nullSpace() {
    double[][] basis = new double[n - rank][n];
    for (int f = rank; f < n; f++) {
      int free = pivot[f];
      double[] y = Arrays.copyOf(l[free], rank);
      backward(y);
      double[] v = basis[f - rank];
      for (int k = 0; k < rank; k++) {
        v[pivot[k]] = -y[k] * scale[pivot[k]];
      }
      v[free] = scale[free] > 0 ? scale[free] : 1;
    }
    return basis;
  }

  /** A solution of A x = b, with zeros outside the pivots; meaningful when b lies in the range. */
  public double[] solve(double[] b) {
    double[] y = new double[rank];
    for (int k = 0; k < rank; k++) {
      int p = pivot[k];
      double s = b[p] * scale[p];
      for (int m = 0; m < k; m++) {
        s -= l[p][m] * y[m];
      }
      y[k] = s / l[p][k];
    }
    backward(y);
    double[] x = new double[n];
    for (int k = 0; k < rank; k++) {
      x[pivot[k]] = y[k] * scale[pivot[k]];
    }
    return x;
  }

  /** Solves L' z = y in place, L the leading triangle in pivot order. */
  private void backward(double[] y) {
    for (int k = rank - 1; k >= 0; k--) {
      double s = y[k];
      for (int m = k + 1; m < rank; m++) {
        s -= l[pivot[m]][k] * y[m];
      }
      y[k] = s / l[pivot[k]][k];
    }
  }
}
