package org.padtrue.numeric;

/**
 * Cholesky factor L of a symmetric positive semidefinite matrix A = L L', columns in the order
 * given: one that depends on earlier ones is left out, where Commons Math would refuse the matrix.
 *
 * <p>Entries are in the units of the caller.
 */
public final class Cholesky {
  private final double[][] l;
  private int rank;

  /**
   * @param a the matrix, of which the lower triangle is read; not changed
   * @param tolerance a pivot not above this share of its own diagonal entry is a dependence blurred
   *     by rounding
   */
  public Cholesky(double[][] a, double tolerance) {
    int n = a.length;
    l = new double[n][];
    for (int i = 0; i < n; i++) {
      double[] li = new double[n];
      l[i] = li;
      double pivot = a[i][i];
      for (int j = 0; j < i; j++) {
        double[] lj = l[j];
        if (lj[j] > 0) {
          double s = a[i][j];
          for (int k = 0; k < j; k++) {
            s -= li[k] * lj[k];
          }
          li[j] = s / lj[j];
          pivot -= li[j] * li[j];
        }
      }
      if (pivot > tolerance * a[i][i]) {
        li[i] = Math.sqrt(pivot);
        rank++;
      }
    }
  }

  /** Whether no column depends on the others. */
  public boolean isRegular() {
    return rank == l.length;
  }

  /** Number of columns that are not left out. */
  public int rank() {
    return rank;
  }

  /** Whether a column is left out. */
  public boolean isDropped(int column) {
    return l[column][column] == 0;
  }

  /** Logarithm of the determinant, columns left out apart. */
  public double logDeterminant() {
    double sum = 0;
    for (int i = 0; i < l.length; i++) {
      sum += isDropped(i) ? 0 : 2 * Math.log(l[i][i]);
    }
    return sum;
  }

  /** The solution x of A x = b, 0 where a column is left out. */
  public double[] solve(double[] b) {
    double[] x = b.clone();
    for (int i = 0; i < x.length; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= l[i][k] * x[k];
      }
      x[i] = isDropped(i) ? 0 : x[i] / l[i][i];
    }
    for (int i = x.length - 1; i >= 0; i--) {
      for (int k = i + 1; k < x.length; k++) {
        x[i] -= l[k][i] * x[k];
      }
      x[i] = isDropped(i) ? 0 : x[i] / l[i][i];
    }
    return x;
  }

  /** L z: with independent standard normal numbers z, numbers of covariance A. */
  public double[] times(double[] z) {
    double[] e = new double[z.length];
    for (int i = 0; i < e.length; i++) {
      for (int j = 0; j <= i; j++) {
        e[i] += l[i][j] * z[j];
      }
    }
    return e;
  }

  /** The inverse of A, 0 in rows and columns left out. */
  public double[][] inverse() {
    int n = l.length;
    double[][] lower = new double[n][n];
    double[][] inverse = new double[n][n];
    for (int i = 0; i < n; i++) {
      double[] own = lower[i];
      if (isDropped(i)) {
        continue;
      }
      for (int k = 0; k < i; k++) {
        double f = l[i][k];
        for (int j = 0; j <= k && f != 0; j++) {
          own[j] -= f * lower[k][j];
        }
      }
      own[i] = 1;
      for (int j = 0; j <= i; j++) {
        own[j] /= l[i][i];
      }
      for (int a = 0; a <= i; a++) {
        for (int j = 0; j <= a && own[a] != 0; j++) {
          inverse[a][j] += own[a] * own[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        inverse[j][i] = inverse[i][j];
      }
    }
    return inverse;
  }
}
