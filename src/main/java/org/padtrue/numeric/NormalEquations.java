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
    double[][] l = new double[columns][columns];
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j <= i; j++) {
        double v = xx[i][j];
        for (int k = 0; k < j; k++) {
          v -= l[i][k] * l[j][k];
        }
        if (i == j) {
          if (!(v > DEPENDENT * xx[i][i])) {
            return null;
          }
          l[i][i] = Math.sqrt(v);
        } else {
          l[i][j] = v / l[j][j];
        }
      }
    }
    double[][] inverse = inverse(l);
    double[] b = new double[columns];
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < columns; j++) {
        b[i] += inverse[i][j] * xy[j];
      }
    }
    return new Solution(b, inverse);
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
    int[] kept = new int[columns];
    int rank = 0;
    double[][] l = new double[columns][columns];
    for (int i = 0; i < columns; i++) {
      double pivot = xx[i][i];
      for (int a = 0; a < rank; a++) {
        double v = xx[i][kept[a]];
        for (int k = 0; k < a; k++) {
          v -= l[rank][k] * l[a][k];
        }
        l[rank][a] = v / l[a][a];
        pivot -= l[rank][a] * l[rank][a];
      }
      if (pivot > DEPENDENT * xx[i][i] && xx[i][i] > 0) {
        l[rank][rank] = Math.sqrt(pivot);
        kept[rank++] = i;
      }
    }
    double[][] own = new double[rank][];
    for (int a = 0; a < rank; a++) {
      own[a] = java.util.Arrays.copyOf(l[a], rank);
    }
    double[][] inverse = inverse(own);
    double[] b = new double[columns];
    double[][] covariance = new double[columns][columns];
    for (int a = 0; a < rank; a++) {
      for (int k = 0; k < rank; k++) {
        b[kept[a]] += inverse[a][k] * xy[kept[k]];
        covariance[kept[a]][kept[k]] = inverse[a][k];
      }
    }
    double[][] nothing = new double[columns - rank][columns];
    int next = 0;
    for (int i = 0, a = 0; i < columns; i++) {
      if (a < rank && kept[a] == i) {
        a++;
        continue;
      }
      double[] z = nothing[next++];
      z[i] = 1;
      for (int c = 0; c < rank; c++) {
        for (int k = 0; k < rank; k++) {
          z[kept[c]] -= inverse[c][k] * xx[kept[k]][i];
        }
      }
    }
    return new Tied(b, covariance, nothing, rank);
  }

  private static double[][] inverse(double[][] l) {
    int n = l.length;
    double[][] m = new double[n][n];
    for (int j = 0; j < n; j++) {
      m[j][j] = 1 / l[j][j];
      for (int i = j + 1; i < n; i++) {
        double v = 0;
        for (int k = j; k < i; k++) {
          v -= l[i][k] * m[k][j];
        }
        m[i][j] = v / l[i][i];
      }
    }
    double[][] inverse = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double v = 0;
        for (int k = i; k < n; k++) {
          v += m[k][i] * m[k][j];
        }
        inverse[i][j] = v;
        inverse[j][i] = v;
      }
    }
    return inverse;
  }
}
