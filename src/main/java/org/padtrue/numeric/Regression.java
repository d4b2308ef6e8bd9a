package org.padtrue.numeric;

/**
 * Weighted least squares with a handful of columns, by modified Gram-Schmidt done twice (Bjorck
 * 1967; "twice is enough", Giraud and Langou 2005). Columns that depend on earlier ones get
 * coefficient 0 and an infinite variance.
 *
 * <p>Results are in the units of the columns and responses given, sums of squares in the square of
 * the latter; sigmas, F and p are pure numbers.
 */
public final class Regression {
  private static final double DEPENDENT = 1e-9;

  public final double[] beta;

  /** (X' W X)^-1, to be multiplied by the variance of unit weight. */
  public final double[][] covariance;

  /** Weighted sum of squared residuals. */
  public final double rss;

  public final int rank;
  public final int n;
  public final double[] fitted;

  // Orthonormal basis of the weighted columns and the weighted residuals.
  private final double[][] q;
  private final double[] residual;

  private Regression(
      double[] beta,
      double[][] covariance,
      double rss,
      int rank,
      int n,
      double[] fitted,
      double[][] q,
      double[] residual) {
    this.q = q;
    this.residual = residual;
    this.beta = beta;
    this.covariance = covariance;
    this.rss = rss;
    this.rank = rank;
    this.n = n;
    this.fitted = fitted;
  }

  /**
   * Fits y on columns.
   *
   * @param columns one array per column, each as long as y
   * @param y response
   * @param sigma relative standard deviations, positive
   */
  public static Regression fit(double[][] columns, double[] y, double[] sigma) {
    int n = y.length;
    int p = columns.length;
    double[][] q = new double[p][n];
    double[][] r = new double[p][p];
    boolean[] used = new boolean[p];
    for (int j = 0; j < p; j++) {
      for (int i = 0; i < n; i++) {
        q[j][i] = columns[j][i] / sigma[i];
      }
      double before = norm(q[j]);
      for (int pass = 0; pass < 2; pass++) {
        for (int k = 0; k < j; k++) {
          if (used[k]) {
            double d = dot(q[k], q[j]);
            r[k][j] += d;
            add(q[j], -d, q[k]);
          }
        }
      }
      double after = norm(q[j]);
      used[j] = after > DEPENDENT * before && after > 0;
      r[j][j] = after;
      scale(q[j], used[j] ? 1 / after : 0);
    }
    return solve(columns, y, sigma, q, r, used);
  }

  private static Regression solve(
      double[][] columns, double[] y, double[] sigma, double[][] q, double[][] r, boolean[] used) {
    int n = y.length;
    int p = columns.length;
    double[] e = new double[n];
    for (int i = 0; i < n; i++) {
      e[i] = y[i] / sigma[i];
    }
    double[] c = new double[p];
    int rank = 0;
    for (int j = 0; j < p; j++) {
      c[j] = used[j] ? dot(q[j], e) : 0;
      add(e, -c[j], q[j]);
      rank += used[j] ? 1 : 0;
    }
    double[][] inverse = inverse(r, used);
    double[] beta = new double[p];
    double[][] cov = new double[p][p];
    for (int i = 0; i < p; i++) {
      for (int k = i; k < p; k++) {
        beta[i] += inverse[i][k] * c[k];
      }
      for (int j = 0; j < p; j++) {
        for (int k = Math.max(i, j); k < p; k++) {
          cov[i][j] += inverse[i][k] * inverse[j][k];
        }
      }
      if (!used[i]) {
        cov[i][i] = Double.POSITIVE_INFINITY;
      }
    }
    double[] fitted = new double[n];
    for (int j = 0; j < p; j++) {
      add(fitted, beta[j], columns[j]);
    }
    return new Regression(beta, cov, dot(e, e), rank, n, fitted, q, e);
  }

  /** How much the residual sum of squares would fall with one more column (Frisch and Waugh). */
  public double gain(double[] column, double[] sigma) {
    double[] d = new double[n];
    for (int i = 0; i < n; i++) {
      d[i] = column[i] / sigma[i];
    }
    double before = norm(d);
    for (double[] direction : q) {
      add(d, -dot(direction, d), direction);
    }
    double after = dot(d, d);
    if (after <= DEPENDENT * DEPENDENT * before * before || after == 0) {
      return 0;
    }
    double c = dot(d, residual);
    return c * c / after;
  }

  /** The gain of a step at every place, index of its first point: one pass over the points. */
  public double[] stepGains(double[] sigma) {
    double[] gains = new double[n];
    double[] along = new double[q.length];
    double square = 0;
    double with = 0;
    for (int i = n - 1; i >= 0; i--) {
      double d = 1 / sigma[i];
      square += d * d;
      with += d * residual[i];
      double after = square;
      for (int j = 0; j < along.length; j++) {
        along[j] += d * q[j][i];
        after -= along[j] * along[j];
      }
      gains[i] = after <= DEPENDENT * square ? 0 : with * with / after;
    }
    return gains;
  }

  // Inverse of the upper triangle, with rows and columns of unused ones left at 0.
  private static double[][] inverse(double[][] r, boolean[] used) {
    int p = r.length;
    double[][] inv = new double[p][p];
    for (int j = 0; j < p; j++) {
      if (!used[j]) {
        continue;
      }
      inv[j][j] = 1 / r[j][j];
      for (int i = j - 1; i >= 0; i--) {
        if (used[i]) {
          double s = 0;
          for (int k = i + 1; k <= j; k++) {
            s += r[i][k] * inv[k][j];
          }
          inv[i][j] = -s / r[i][i];
        }
      }
    }
    return inv;
  }

  public double degreesOfFreedom() {
    return n - rank;
  }

  /** Variance of unit weight from the residuals; 0 degrees of freedom give NaN. */
  public double unitVariance() {
    return n > rank ? rss / (n - rank) : Double.NaN;
  }

  /** Standard error of a coefficient, scaled by the residuals. */
  public double standardError(int j) {
    return Math.sqrt(covariance[j][j] * unitVariance());
  }

  /** Two-sided p value of a coefficient. */
  public double p(int j) {
    double se = standardError(j);
    if (!Double.isFinite(se)) {
      return 1;
    }
    if (se == 0) {
      return beta[j] == 0 ? 1 : 0;
    }
    return Tail.tTwoSided(beta[j] / se, n - rank);
  }

  private static double dot(double[] a, double[] b) {
    double s = 0;
    for (int i = 0; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }

  private static double norm(double[] a) {
    return Math.sqrt(dot(a, a));
  }

  private static void add(double[] to, double factor, double[] what) {
    if (factor != 0) {
      for (int i = 0; i < to.length; i++) {
        to[i] += factor * what[i];
      }
    }
  }

  private static void scale(double[] a, double factor) {
    for (int i = 0; i < a.length; i++) {
      a[i] *= factor;
    }
  }
}
