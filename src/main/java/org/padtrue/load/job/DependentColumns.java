package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.List;

/**
 * Least squares with few columns, some of which may depend on those before them.
 *
 * <p>Modified Gram-Schmidt with a second pass; a column that keeps less than 1e-9 of its length is
 * dependent and left out, which is right for the small whole numbers of board columns and rows.
 */
final class DependentColumns {
  private static final double DEPENDENT = 1e-9;

  private final double[][] columns;
  private final List<Integer> kept = new ArrayList<>();
  private final List<double[]> q = new ArrayList<>();
  private final List<double[]> r = new ArrayList<>();
  private final double[][] dependence;

  /**
   * @param columns p columns of n numbers
   */
  DependentColumns(double[][] columns) {
    this.columns = columns;
    for (int j = 0; j < columns.length; j++) {
      keep(j);
    }
    dependence = new double[columns.length][];
    for (int j = 0; j < columns.length; j++) {
      dependence[j] = solve(columns[j]);
    }
  }

  private void keep(int j) {
    double[] v = columns[j].clone();
    double length = Math.sqrt(dot(v, v));
    double[] parts = project(v);
    double left = Math.sqrt(dot(v, v));
    if (left > DEPENDENT * length) {
      for (int i = 0; i < v.length; i++) {
        v[i] /= left;
      }
      double[] rj = new double[q.size() + 1];
      System.arraycopy(parts, 0, rj, 0, q.size());
      rj[q.size()] = left;
      q.add(v);
      r.add(rj);
      kept.add(j);
    }
  }

  /** Takes the kept directions out of v, twice for accuracy; returns their parts. */
  private double[] project(double[] v) {
    double[] parts = new double[q.size()];
    for (int pass = 0; pass < 2; pass++) {
      for (int k = 0; k < q.size(); k++) {
        double d = dot(q.get(k), v);
        parts[k] += d;
        for (int i = 0; i < v.length; i++) {
          v[i] -= d * q.get(k)[i];
        }
      }
    }
    return parts;
  }

  private static double dot(double[] a, double[] b) {
    double s = 0;
    for (int i = 0; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }

  /** Number of independent columns. */
  int rank() {
    return kept.size();
  }

  /** Coefficients of all columns; those of dependent ones are 0. */
  double[] solve(double[] rhs) {
    double[] c = project(rhs.clone());
    double[] x = new double[columns.length];
    for (int k = kept.size() - 1; k >= 0; k--) {
      double s = c[k];
      for (int m = k + 1; m < kept.size(); m++) {
        s -= r.get(m)[k] * x[kept.get(m)];
      }
      x[kept.get(k)] = s / r.get(k)[k];
    }
    return x;
  }

  /** True when the data fix the value of a new row of the same columns. */
  boolean fixes(double[] row) {
    for (int j = 0; j < columns.length; j++) {
      if (!kept.contains(j)) {
        double v = 0;
        for (int k : kept) {
          v += dependence[j][k] * row[k];
        }
        if (Math.abs(v - row[j]) > 1e-6) {
          return false;
        }
      }
    }
    return true;
  }

  /** The value at a row. */
  static double at(double[] coefficients, double[] row) {
    return dot(coefficients, row);
  }
}
