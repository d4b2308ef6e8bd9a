package org.padtrue.imaging.picture;

import org.jspecify.annotations.Nullable;

/** Small dense algebra on plain arrays. Entries are in the units of the caller. */
public final class Matrices {
  private Matrices() {}

  /** Inverse of a 3 x 3 matrix given row by row. */
  public static double[] inverse3(double[] m) {
    double a = m[4] * m[8] - m[5] * m[7];
    double b = m[5] * m[6] - m[3] * m[8];
    double c = m[3] * m[7] - m[4] * m[6];
    double det = m[0] * a + m[1] * b + m[2] * c;
    return new double[] {
      a / det,
      (m[2] * m[7] - m[1] * m[8]) / det,
      (m[1] * m[5] - m[2] * m[4]) / det,
      b / det,
      (m[0] * m[8] - m[2] * m[6]) / det,
      (m[2] * m[3] - m[0] * m[5]) / det,
      c / det,
      (m[1] * m[6] - m[0] * m[7]) / det,
      (m[0] * m[4] - m[1] * m[3]) / det
    };
  }

  /** Product of 3 x 3 matrices given row by row. */
  public static double[] product3(double[] a, double[] b) {
    double[] c = new double[9];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        c[3 * i + j] = a[3 * i] * b[j] + a[3 * i + 1] * b[3 + j] + a[3 * i + 2] * b[6 + j];
      }
    }
    return c;
  }

  /** Inverse of a symmetric positive definite matrix by Cholesky's way, or null when singular. */
  public static double @Nullable [][] inverse(double[][] a) {
    int n = a.length;
    double[][] l = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double s = a[i][j];
        for (int k = 0; k < j; k++) {
          s -= l[i][k] * l[j][k];
        }
        if (i == j) {
          if (!(s > 1e-13 * a[i][i])) {
            return null;
          }
          l[i][i] = Math.sqrt(s);
        } else {
          l[i][j] = s / l[j][j];
        }
      }
    }
    double[][] inverse = new double[n][n];
    double[] y = new double[n];
    for (int c = 0; c < n; c++) {
      for (int i = 0; i < n; i++) {
        double s = i == c ? 1 : 0;
        for (int k = 0; k < i; k++) {
          s -= l[i][k] * y[k];
        }
        y[i] = s / l[i][i];
      }
      for (int i = n - 1; i >= 0; i--) {
        double s = y[i];
        for (int k = i + 1; k < n; k++) {
          s -= l[k][i] * inverse[k][c];
        }
        inverse[i][c] = s / l[i][i];
      }
    }
    return inverse;
  }

  /** Matrix times vector. */
  public static double[] times(double[][] a, double[] v) {
    double[] r = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < v.length; j++) {
        r[i] += a[i][j] * v[j];
      }
    }
    return r;
  }

  /** v' A v. */
  public static double form(double[][] a, double[] v) {
    double[] av = times(a, v);
    double s = 0;
    for (int i = 0; i < v.length; i++) {
      s += v[i] * av[i];
    }
    return s;
  }

  /** Adds weight * row row' to a normal matrix and weight * row * y to its right side. */
  public static void accumulate(double[][] n, double[] r, double[] row, double y, double weight) {
    for (int i = 0; i < row.length; i++) {
      double wi = weight * row[i];
      if (wi == 0) {
        continue;
      }
      r[i] += wi * y;
      for (int j = 0; j < row.length; j++) {
        n[i][j] += wi * row[j];
      }
    }
  }
}
