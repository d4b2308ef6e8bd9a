package org.padtrue.mixed.reml;

/**
 * Cross products of fixed columns F, random columns Z and the response y, accumulated row by row.
 *
 * <p>Memory depends on the number of columns only. Callers centre and scale their columns, so that
 * the normal equations stay well conditioned. Random columns belong to blocks (one block per
 * factor); within a block the cross products are diagonal, because a row touches one level of a
 * factor and the two axes of a level are orthogonal over the two rows of a placement.
 *
 * <p>Everything is in the units of the caller's columns and response.
 */
public final class CrossProducts {
  private final int fixed;
  private final int random;
  final double[][] ff;
  public final double[][] fz;
  public final double[][] zz;
  final double[] fy;
  final double[] zy;
  double yy;
  public double logWeights;
  int rows;

  /**
   * Empty cross products.
   *
   * @param fixed number of fixed columns
   * @param random number of random columns
   */
  public CrossProducts(int fixed, int random) {
    this.fixed = fixed;
    this.random = random;
    ff = new double[fixed][fixed];
    fz = new double[random][fixed];
    zz = new double[random][random];
    fy = new double[fixed];
    zy = new double[random];
  }

  /** Number of fixed columns. */
  public int fixed() {
    return fixed;
  }

  /** Number of random columns. */
  public int random() {
    return random;
  }

  /**
   * Adds one row.
   *
   * @param fi indices of the non-zero fixed columns, ascending
   * @param fv their values
   * @param nf how many
   * @param zi indices of the non-zero random columns
   * @param zv their values
   * @param nz how many
   * @param y response
   * @param w weight, positive: inverse of the row's relative variance
   */
  public void add(
      int[] fi, double[] fv, int nf, int[] zi, double[] zv, int nz, double y, double w) {
    for (int a = 0; a < nf; a++) {
      double wa = w * fv[a];
      double[] r = ff[fi[a]];
      for (int b = a; b < nf; b++) {
        r[fi[b]] += wa * fv[b];
      }
      fy[fi[a]] += wa * y;
    }
    for (int a = 0; a < nz; a++) {
      double wa = w * zv[a];
      double[] r = fz[zi[a]];
      for (int b = 0; b < nf; b++) {
        r[fi[b]] += wa * fv[b];
      }
      double[] q = zz[zi[a]];
      for (int b = 0; b < nz; b++) {
        q[zi[b]] += wa * zv[b];
      }
      zy[zi[a]] += wa * y;
    }
    yy += w * y * y;
    if (w != 1) {
      logWeights += Math.log(w);
    }
    rows++;
  }

  /** Fixed cross product, either order of indices. */
  public double ff(int i, int j) {
    return i <= j ? ff[i][j] : ff[j][i];
  }

  /**
   * The cross products of the model F C with the response y - F c0.
   *
   * @param c one row per new fixed column: its coefficients on the columns of F
   * @param c0 offset coefficients
   * @return cross products with {@code c.length} fixed columns
   */
  public CrossProducts map(double[][] c, double[] c0) {
    int p = c.length;
    CrossProducts m = new CrossProducts(p, zz, random);
    double[][] g = new double[p][fixed];
    for (int i = 0; i < p; i++) {
      for (int k = 0; k < fixed; k++) {
        double v = c[i][k];
        if (v != 0) {
          for (int l = 0; l < fixed; l++) {
            g[i][l] += v * ff(k, l);
          }
        }
      }
    }
    double[] f0 = new double[fixed];
    for (int k = 0; k < fixed; k++) {
      if (c0[k] != 0) {
        for (int l = 0; l < fixed; l++) {
          f0[l] += c0[k] * ff(k, l);
        }
      }
    }
    for (int i = 0; i < p; i++) {
      for (int j = i; j < p; j++) {
        m.ff[i][j] = dot(g[i], c[j]);
      }
      m.fy[i] = dot(c[i], fy) - dot(c[i], f0);
    }
    for (int z = 0; z < random; z++) {
      for (int i = 0; i < p; i++) {
        m.fz[z][i] = dot(fz[z], c[i]);
      }
      m.zy[z] = zy[z] - dot(fz[z], c0);
    }
    m.yy = yy - 2 * dot(c0, fy) + dot(c0, f0);
    m.logWeights = logWeights;
    m.rows = rows;
    return m;
  }

  private CrossProducts(int fixed, double[][] sharedZz, int random) {
    this.fixed = fixed;
    this.random = random;
    ff = new double[fixed][fixed];
    fz = new double[random][fixed];
    zz = sharedZz;
    fy = new double[fixed];
    zy = new double[random];
  }

  private static double dot(double[] a, double[] b) {
    double s = 0;
    for (int i = 0; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }
}
