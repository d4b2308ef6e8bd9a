package org.padtrue.imaging.picture;

import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Cholesky;

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

  /** Inverse of a symmetric positive definite matrix, or null when singular. */
  public static double @Nullable [][] inverse(double[][] a) {
    Cholesky factor = new Cholesky(a, 1e-13);
    return factor.isRegular() ? factor.inverse() : null;
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
