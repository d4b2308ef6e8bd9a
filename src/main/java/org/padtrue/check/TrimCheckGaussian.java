package org.padtrue.check;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.BlockRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * What a response says of added columns when the others are known beforehand up to a normal error.
 *
 * <p>Model: y = X u + F f + e, u normal with mean 0 and covariance P (which may be singular), e
 * normal with one over the weights as variances. With V = X P X' + var(e), every question comes
 * down to E'inv(V)E and E'inv(V)y, E = (X, F), which need no matrix larger than the number of
 * columns: inv(V) = W - W X M X'W, M = inv(I + P X'WX) P (Woodbury's identity).
 *
 * <p>Everything is in the units of the caller's columns and response; a chi-square is a pure
 * number.
 */
public final class TrimCheckGaussian {
  private static final double SMALL = 1e-9;

  private final double[][] k;
  private final double[] h;
  private final double[] mean;
  private final double zero;

  /**
   * Puts the rows and what was known beforehand together.
   *
   * @param sums cross products of the columns (X, F) and the response
   * @param prior covariance of u; its size is the number of columns of X
   */
  public TrimCheckGaussian(TrimCheckSums sums, double[][] prior) {
    int p = prior.length;
    int m = sums.columns();
    double[][] all = sums.products();
    RealMatrix post = posterior(part(all, p, p), prior);
    RealMatrix known = part(all, p, m);
    RealMatrix explained = known.transpose().multiply(post.multiply(known));
    k = all;
    for (int i = 0; i < m; i++) {
      for (int j = 0; j <= i; j++) {
        // exactly symmetrical, or the eigenvectors below would not be at right angles
        double e = 0.5 * (explained.getEntry(i, j) + explained.getEntry(j, i));
        k[i][j] -= e;
        k[j][i] = k[i][j];
      }
    }
    double[] g = new double[m];
    for (int i = 0; i < m; i++) {
      g[i] = sums.xy(i);
    }
    double[] gx = java.util.Arrays.copyOf(g, p);
    mean = post.operate(gx);
    h = g.clone();
    double q = sums.yy();
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < p; j++) {
        h[i] -= sums.xx(i, j) * mean[j];
      }
    }
    for (int j = 0; j < p; j++) {
      q -= gx[j] * mean[j];
    }
    zero = q;
  }

  /** The upper left part; blocks, because products of plain matrices are slow. */
  private static BlockRealMatrix part(double[][] a, int rows, int columns) {
    BlockRealMatrix m = new BlockRealMatrix(rows, columns);
    for (int i = 0; i < rows; i++) {
      for (int j = 0; j < columns; j++) {
        m.setEntry(i, j, a[i][j]);
      }
    }
    return m;
  }

  /** inv(I + P N) P, symmetrical by construction and made so in the last digits. */
  private static RealMatrix posterior(RealMatrix n, double[][] prior) {
    RealMatrix p = new BlockRealMatrix(prior);
    RealMatrix a = p.multiply(n);
    for (int i = 0; i < prior.length; i++) {
      a.addToEntry(i, i, 1);
    }
    RealMatrix c = new LUDecomposition(a).getSolver().solve(p);
    RealMatrix half = new BlockRealMatrix(c.add(c.transpose()).getData());
    return half.scalarMultiply(0.5);
  }

  /**
   * Covariance of the parameters once rows have been seen.
   *
   * @param prior covariance before
   * @param sums the rows; the first columns are the parameters'
   */
  public static double[][] posterior(double[][] prior, TrimCheckSums sums) {
    int p = prior.length;
    return posterior(part(sums.products(), p, p), prior).getData();
  }

  /** Entry of E'inv(V)E. */
  public double k(int i, int j) {
    return k[i][j];
  }

  /** Entry of E'inv(V)y. */
  public double h(int i) {
    return h[i];
  }

  /** Expected u given the response. */
  public double[] mean() {
    return mean.clone();
  }

  /**
   * What the response says of some columns at once, when all their coefficients are 0.
   *
   * @param statistic chi-square
   * @param degreesOfFreedom how many of the columns can be told apart
   */
  public record Joint(double statistic, int degreesOfFreedom) {}

  /**
   * Tests that some coefficients are 0.
   *
   * @param columns which
   * @param moved E'inv(V) times the response from which what is known to differ is taken off
   */
  public Joint joint(int[] columns, double[] moved) {
    if (columns.length == 0) {
      return new Joint(0, 0);
    }
    EigenDecomposition e = scaled(columns);
    double[] values = e.getRealEigenvalues();
    double largest = 0;
    for (double v : values) {
      largest = Math.max(largest, v);
    }
    double statistic = 0;
    int rank = 0;
    for (int i = 0; i < values.length; i++) {
      if (values[i] <= SMALL * largest) {
        continue;
      }
      double dot = 0;
      for (int j = 0; j < columns.length; j++) {
        double d = k[columns[j]][columns[j]];
        dot += d > 0 ? e.getV().getEntry(j, i) * moved[columns[j]] / Math.sqrt(d) : 0;
      }
      statistic += dot * dot / values[i];
      rank++;
    }
    return new Joint(statistic, rank);
  }

  /** Of the part of K that belongs to some columns, scaled to ones on the diagonal. */
  private EigenDecomposition scaled(int[] columns) {
    int n = columns.length;
    double[][] a = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double d = k[columns[i]][columns[i]] * k[columns[j]][columns[j]];
        a[i][j] = d > 0 ? k[columns[i]][columns[j]] / Math.sqrt(d) : 0;
      }
    }
    return new EigenDecomposition(new Array2DRowRealMatrix(a, false));
  }

  /**
   * Covariance of the least-squares coefficients of a few columns, pseudo-inverse where they cannot
   * all be told.
   */
  public double[][] covariance(int[] columns) {
    int n = columns.length;
    EigenDecomposition e = scaled(columns);
    double[] values = e.getRealEigenvalues();
    double largest = 0;
    for (double v : values) {
      largest = Math.max(largest, v);
    }
    double[][] s = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double d = k[columns[i]][columns[i]] * k[columns[j]][columns[j]];
        double v = 0;
        for (int l = 0; l < n; l++) {
          if (values[l] > SMALL * largest) {
            v += e.getV().getEntry(i, l) * e.getV().getEntry(j, l) / values[l];
          }
        }
        s[i][j] = d > 0 ? v / Math.sqrt(d) : 0;
      }
    }
    return s;
  }
}
