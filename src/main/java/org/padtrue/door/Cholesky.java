package org.padtrue.door;

/** Symmetric positive systems of a dozen unknowns. */
final class Cholesky {
  private final double[][] l;

  /** Factors a copy of a symmetric positive definite matrix. */
  Cholesky(double[][] a) {
    int n = a.length;
    l = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double s = a[i][j];
        for (int k = 0; k < j; k++) {
          s -= l[i][k] * l[j][k];
        }
        if (i == j) {
          l[i][i] = Math.sqrt(Math.max(s, 1e-300));
        } else {
          l[i][j] = s / l[j][j];
        }
      }
    }
  }

  double[] solve(double[] b) {
    int n = b.length;
    double[] x = b.clone();
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= l[i][k] * x[k];
      }
      x[i] /= l[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      for (int k = i + 1; k < n; k++) {
        x[i] -= l[k][i] * x[k];
      }
      x[i] /= l[i][i];
    }
    return x;
  }
}
