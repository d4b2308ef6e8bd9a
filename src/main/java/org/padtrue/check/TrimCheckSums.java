package org.padtrue.check;

/**
 * Weighted cross products of a linear model's rows, gathered in one pass. Everything is in the
 * units of the caller's columns and response.
 *
 * <p>Everything is in the units of the caller's columns and response.
 */
public final class TrimCheckSums {
  private final double[][] xx;
  private final double[] xy;
  private double yy;
  private int rows;

  /**
   * Nothing yet.
   *
   * @param columns number of columns
   */
  public TrimCheckSums(int columns) {
    xx = new double[columns][columns];
    xy = new double[columns];
  }

  /**
   * Adds a row.
   *
   * @param index columns that are not zero, each once
   * @param value their values
   * @param n how many of the two are used
   * @param y response
   * @param weight one over the variance of the response
   */
  public void add(int[] index, double[] value, int n, double y, double weight) {
    for (int i = 0; i < n; i++) {
      double v = weight * value[i];
      for (int j = 0; j < n; j++) {
        xx[index[i]][index[j]] += v * value[j];
      }
      xy[index[i]] += v * y;
    }
    yy += weight * y * y;
    rows++;
  }

  /** Number of columns. */
  public int columns() {
    return xy.length;
  }

  /** Sum of weight times the product of two columns. */
  public double xx(int i, int j) {
    return xx[i][j];
  }

  /** A copy of all sums of weight times the product of two columns. */
  double[][] products() {
    double[][] c = new double[xx.length][];
    for (int i = 0; i < c.length; i++) {
      c[i] = xx[i].clone();
    }
    return c;
  }

  /** Sum of weight times a column times the response. */
  public double xy(int i) {
    return xy[i];
  }

  /** Weighted sum of squares of the response. */
  public double yy() {
    return yy;
  }
}
