package org.padtrue.numeric;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Linear least squares y = X b + e by QR of the column-scaled design, refined once.
 *
 * <p>Results are in the units of the columns and responses given, rss in the square of the latter.
 *
 * @param coefficients b, in the units of the columns given
 * @param standardErrors of b; NaN without residual degrees of freedom
 * @param rss residual sum of squares
 * @param degreesOfFreedom rows minus columns
 */
public record LeastSquares(
    double[] coefficients, double[] standardErrors, double rss, int degreesOfFreedom) {

  /** A column whose remaining length falls below this share of its own is taken as dependent. */
  private static final double SINGULAR_TOL = 1e-13;

  /**
   * Fits.
   *
   * @param x n rows of p columns
   * @param y n responses
   * @throws UndeterminedException when the columns are linearly dependent or n is less than p
   */
  public static LeastSquares fit(double[][] x, double[] y) {
    int n = x.length;
    int p = n == 0 ? 0 : x[0].length;
    if (n < p || n == 0) {
      throw new UndeterminedException("rows = " + n + "; expected at least " + Math.max(1, p));
    }
    double[] scale = new double[p];
    double[][] s = new double[n][p];
    for (int j = 0; j < p; j++) {
      double h = 0;
      for (double[] r : x) {
        h = Math.hypot(h, r[j]);
      }
      scale[j] = h == 0 ? 1 : h;
      for (int i = 0; i < n; i++) {
        s[i][j] = x[i][j] / scale[j];
      }
    }
    RealMatrix design = new Array2DRowRealMatrix(s, false);
    QRDecomposition qr = new QRDecomposition(design, SINGULAR_TOL);
    DecompositionSolver solver = qr.getSolver();
    if (!solver.isNonSingular()) {
      throw new UndeterminedException("the columns are linearly dependent");
    }
    double[] b = solver.solve(new ArrayRealVector(y)).toArray();
    double[] r = residuals(s, y, b);
    double[] step = solver.solve(new ArrayRealVector(r)).toArray();
    for (int j = 0; j < p; j++) {
      b[j] += step[j];
    }
    double rss = 0;
    for (double v : residuals(s, y, b)) {
      rss += v * v;
    }
    int df = n - p;
    double[] se = new double[p];
    RealMatrix upper = qr.getR().getSubMatrix(0, p - 1, 0, p - 1);
    double[][] inverse = upperInverse(upper);
    for (int j = 0; j < p; j++) {
      double v = 0;
      for (int k = j; k < p; k++) {
        v += inverse[j][k] * inverse[j][k];
      }
      se[j] = df > 0 ? Math.sqrt(v * rss / df) / scale[j] : Double.NaN;
      b[j] /= scale[j];
    }
    return new LeastSquares(b, se, rss, df);
  }

  private static double[] residuals(double[][] x, double[] y, double[] b) {
    double[] r = new double[y.length];
    for (int i = 0; i < r.length; i++) {
      double v = y[i];
      for (int j = 0; j < b.length; j++) {
        v -= x[i][j] * b[j];
      }
      r[i] = v;
    }
    return r;
  }

  private static double[][] upperInverse(RealMatrix r) {
    int p = r.getColumnDimension();
    double[][] inv = new double[p][p];
    for (int j = 0; j < p; j++) {
      inv[j][j] = 1 / r.getEntry(j, j);
      for (int i = j - 1; i >= 0; i--) {
        double v = 0;
        for (int k = i + 1; k <= j; k++) {
          v -= r.getEntry(i, k) * inv[k][j];
        }
        inv[i][j] = v / r.getEntry(i, i);
      }
    }
    return inv;
  }
}
