package org.padtrue.numeric;

import org.jspecify.annotations.Nullable;

/**
 * Weighted linear least squares by normal equations, accumulated row by row, so that memory depends
 * on the number of columns only. Columns should be centred and of like size; a row names the
 * columns that are not zero in it.
 *
 * <p>Model: y = X b + e, var e = s^2 / weight. Not determined when a column depends on the others.
 *
 * <p>Everything is in the units of the columns and responses given.
 */
public final class NormalEquations {
  /** A pivot below this share of its column's own square is taken as dependent. */
  private static final double DEPENDENT = 1e-10;

  private final int columns;
  private final double[][] xx;
  private final double[] xy;
  private int rows;

  /** Empty equations of so many columns. */
  public NormalEquations(int columns) {
    this.columns = columns;
    xx = new double[columns][columns];
    xy = new double[columns];
  }

  /**
   * Adds a row.
   *
   * @param index columns that are not zero; one may be named twice, its values then add up
   * @param value their values
   * @param count how many of the two arrays to use
   * @param y response
   * @param weight positive
   */
  public void add(int[] index, double[] value, int count, double y, double weight) {
    for (int a = 0; a < count; a++) {
      double wa = weight * value[a];
      double[] r = xx[index[a]];
      for (int b = 0; b < count; b++) {
        r[index[b]] += wa * value[b];
      }
      xy[index[a]] += wa * y;
    }
    rows++;
  }

  /**
   * Estimates and their covariance in units of s^2.
   *
   * @param estimates one per column
   * @param covariance columns by columns, to be multiplied by s^2; not copied
   */
  @SuppressWarnings("ArrayRecordComponent") // read by the fit that asked for it
  public record Solution(double[] estimates, double[][] covariance) {
    /** Variance of a combination of estimates, in units of s^2. */
    public double variance(double[] coefficients) {
      double v = 0;
      for (int i = 0; i < coefficients.length; i++) {
        if (coefficients[i] != 0) {
          for (int j = 0; j < coefficients.length; j++) {
            v += coefficients[i] * coefficients[j] * covariance[i][j];
          }
        }
      }
      return Math.max(0, v);
    }
  }

  /** Solves; null when the rows do not determine every column. */
  public @Nullable Solution solve() {
    if (rows < columns) {
      return null;
    }
    Cholesky factor = new Cholesky(xx, DEPENDENT);
    if (!factor.isRegular()) {
      return null;
    }
    double[][] inverse = factor.inverse();
    return new Solution(times(inverse, xy), inverse);
  }

  /**
   * A solution where columns depend on each other: later ones that depend on earlier are left out.
   *
   * @param estimates one per column, 0 for those left out
   * @param covariance columns by columns in units of s^2, 0 for those left out; not copied
   * @param nothing combinations of columns that no row sees, one for each left out
   * @param rank columns that are not left out
   */
  @SuppressWarnings("ArrayRecordComponent") // read by the fit that asked for it
  public record Tied(double[] estimates, double[][] covariance, double[][] nothing, int rank) {
    private static final double SEEN = 1e-6;

    /** Variance of a combination in units of s^2; NaN when the rows do not determine it. */
    public double variance(double[] coefficients) {
      for (double[] z : nothing) {
        double c = 0;
        for (int i = 0; i < z.length; i++) {
          c += z[i] * coefficients[i];
        }
        if (Math.abs(c) > SEEN) {
          return Double.NaN;
        }
      }
      return new Solution(estimates, covariance).variance(coefficients);
    }

    /** Value of a combination. */
    public double value(double[] coefficients) {
      double v = 0;
      for (int i = 0; i < coefficients.length; i++) {
        v += coefficients[i] * estimates[i];
      }
      return v;
    }
  }

  /** Solves with what depends on earlier columns left out. */
  public Tied tied() {
    Cholesky factor = new Cholesky(xx, DEPENDENT);
    double[][] covariance = factor.inverse();
    double[][] nothing = new double[columns - factor.rank()][];
    int next = 0;
    for (int i = 0; i < columns; i++) {
      if (factor.isDropped(i)) {
        double[] z = times(covariance, xx[i]);
        for (int k = 0; k < columns; k++) {
          z[k] = k == i ? 1 : -z[k];
        }
        nothing[next++] = z;
      }
    }
    return new Tied(times(covariance, xy), covariance, nothing, factor.rank());
  }

  private static double[] times(double[][] a, double[] v) {
    double[] r = new double[v.length];
    for (int i = 0; i < r.length; i++) {
      for (int j = 0; j < r.length; j++) {
        r[i] += a[i][j] * v[j];
      }
    }
    return r;
  }
}
