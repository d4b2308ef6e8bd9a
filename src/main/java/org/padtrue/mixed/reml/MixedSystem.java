package org.padtrue.mixed.reml;

/**
 * The penalised least-squares system of a mixed model for given relative standard deviations theta.
 *
 * <p>Profiled deviance of Bates, Maechler, Bolker and Walker (2015), J. Stat. Softw. 67(1), section
 * 3: with Lambda = diag(theta), the Cholesky factor of [Lambda Z'Z Lambda + I, Lambda Z'X; X'Z
 * Lambda, X'X] gives both log determinants and the penalised residual sum of squares. The factor
 * with most levels is eliminated first: its block is diagonal, so its cost is linear in its levels.
 *
 * <p>Fixed columns that depend on earlier ones are dropped: coefficient 0, standard error NaN.
 *
 * <p>Coefficients are in the units of the caller's columns and response; theta and deviance are
 * pure numbers.
 */
public final class MixedSystem {
  /** Share of a fixed column's length that must be left after elimination; below, it is dropped. */
  private static final double RANK_TOL = 1e-11;

  /**
   * Relative standard deviation of a level that is not held to the others: so wide that its column
   * acts as a fixed one (its share of log determinants is a constant).
   */
  public static final double FREE = 1e4;

  public final int p;
  public final int q;
  public final int n;
  final int[] thetaOf;
  private final CrossProducts cp;
  private final int[] colA;
  private final int[] colB;
  private final int[][] couplingIndex;
  private final double[][] couplingValue;
  private final int qa;
  private final int qb;
  private final int m;
  private final double[][] l;
  private final double[] scaleB;
  private final double[] dA;
  private final double[] work;
  private final boolean[] dropped;

  /**
   * A system.
   *
   * @param cp cross products
   * @param thetaOf for each random column the index of its theta; beyond the last: {@link #FREE}
   * @param blockOf for each random column its block; cross products within a block are diagonal
   * @param parameters number of thetas
   */
  public MixedSystem(CrossProducts cp, int[] thetaOf, int[] blockOf, int parameters) {
    this.cp = cp;
    this.thetaOf = thetaOf;
    p = cp.fixed();
    q = cp.random();
    int free = 0;
    for (int j = 0; j < q; j++) {
      free += thetaOf[j] >= parameters && cp.zz[j][j] > 0 ? 1 : 0;
    }
    // A free level takes a row for each of its columns, as a fixed one would.
    n = cp.rows - free;
    int blocks = 0;
    for (int b : blockOf) {
      blocks = Math.max(blocks, b + 1);
    }
    int[] size = new int[Math.max(blocks, 1)];
    for (int b : blockOf) {
      size[b]++;
    }
    int big = 0;
    for (int b = 1; b < blocks; b++) {
      if (size[b] > size[big]) {
        big = b;
      }
    }
    qa = q == 0 ? 0 : size[big];
    qb = q - qa;
    colA = new int[qa];
    colB = new int[qb];
    int ia = 0;
    int ib = 0;
    for (int j = 0; j < q; j++) {
      if (blockOf[j] == big) {
        colA[ia++] = j;
      } else {
        colB[ib++] = j;
      }
    }
    couplingIndex = new int[qa][];
    couplingValue = new double[qa][];
    for (int a = 0; a < qa; a++) {
      double[] row = cp.zz[colA[a]];
      int c = 0;
      for (int b = 0; b < qb; b++) {
        if (row[colB[b]] != 0) {
          c++;
        }
      }
      couplingIndex[a] = new int[c];
      couplingValue[a] = new double[c];
      c = 0;
      for (int b = 0; b < qb; b++) {
        if (row[colB[b]] != 0) {
          couplingIndex[a][c] = b;
          couplingValue[a][c++] = row[colB[b]];
        }
      }
    }
    m = qb + p + 1;
    l = new double[m][];
    for (int i = 0; i < m; i++) {
      l[i] = new double[i + 1];
    }
    scaleB = new double[qb];
    dA = new double[qa];
    work = new double[m];
    dropped = new boolean[p];
  }

  /** State after {@link #factor}: log determinants, rank and penalised residual sum of squares. */
  public double logDetL;

  public double logDetX;
  public double rss;
  public int rank;

  private double rel(double[] theta, int column) {
    int t = thetaOf[column];
    return t < theta.length ? theta[t] : FREE;
  }

  /** Factors the system at theta. */
  public void factor(double[] theta) {
    assemble(theta);
    logDetL = 0;
    logDetX = 0;
    for (int a = 0; a < qa; a++) {
      eliminate(a, rel(theta, colA[a]));
    }
    cholesky();
  }

  private void assemble(double[] theta) {
    for (int b = 0; b < qb; b++) {
      scaleB[b] = rel(theta, colB[b]);
    }
    for (int i = 0; i < qb; i++) {
      double[] li = l[i];
      double[] zi = cp.zz[colB[i]];
      for (int j = 0; j <= i; j++) {
        li[j] = scaleB[i] * scaleB[j] * zi[colB[j]];
      }
      li[i] += 1;
    }
    for (int i = 0; i < p; i++) {
      double[] li = l[qb + i];
      for (int j = 0; j < qb; j++) {
        li[j] = scaleB[j] * cp.fz[colB[j]][i];
      }
      for (int j = 0; j <= i; j++) {
        li[qb + j] = cp.ff[j][i];
      }
    }
    double[] ly = l[m - 1];
    for (int j = 0; j < qb; j++) {
      ly[j] = scaleB[j] * cp.zy[colB[j]];
    }
    System.arraycopy(cp.fy, 0, ly, qb, p);
    ly[m - 1] = cp.yy;
  }

  /** Dense vector of the couplings of column a to [B, X, y], scaled; returns it in work. */
  private void coupling(int a, double th) {
    java.util.Arrays.fill(work, 0);
    int[] ci = couplingIndex[a];
    double[] cv = couplingValue[a];
    for (int k = 0; k < ci.length; k++) {
      work[ci[k]] = th * scaleB[ci[k]] * cv[k];
    }
    double[] fz = cp.fz[colA[a]];
    for (int i = 0; i < p; i++) {
      work[qb + i] = th * fz[i];
    }
    work[m - 1] = th * cp.zy[colA[a]];
  }

  private void eliminate(int a, double th) {
    double d = th * th * cp.zz[colA[a]][colA[a]] + 1;
    dA[a] = d;
    logDetL += Math.log(d);
    if (th == 0) {
      return;
    }
    coupling(a, th);
    int[] ci = couplingIndex[a];
    for (int k = 0; k < ci.length; k++) {
      int i = ci[k];
      double f = work[i] / d;
      double[] li = l[i];
      for (int k2 = 0; k2 <= k; k2++) {
        li[ci[k2]] -= f * work[ci[k2]];
      }
    }
    for (int i = qb; i < m; i++) {
      double f = work[i] / d;
      if (f == 0) {
        continue;
      }
      double[] li = l[i];
      for (int k = 0; k < ci.length; k++) {
        li[ci[k]] -= f * work[ci[k]];
      }
      for (int j = qb; j <= i; j++) {
        li[j] -= f * work[j];
      }
    }
  }

  private void cholesky() {
    rank = 0;
    for (int j = 0; j < m - 1; j++) {
      double[] lj = l[j];
      double pivot = lj[j];
      for (int k = 0; k < j; k++) {
        pivot -= lj[k] * lj[k];
      }
      if (j >= qb) {
        int i = j - qb;
        dropped[i] = !(pivot > RANK_TOL * cp.ff[i][i]);
        if (dropped[i]) {
          for (int r = j; r < m; r++) {
            l[r][j] = 0;
          }
          continue;
        }
        rank++;
        logDetX += Math.log(pivot);
      } else {
        logDetL += Math.log(pivot);
      }
      double root = Math.sqrt(pivot);
      lj[j] = root;
      for (int r = j + 1; r < m; r++) {
        double[] lr = l[r];
        double s = lr[j];
        for (int k = 0; k < j; k++) {
          s -= lr[k] * lj[k];
        }
        lr[j] = s / root;
      }
    }
    double[] ly = l[m - 1];
    double r = ly[m - 1];
    for (int k = 0; k < m - 1; k++) {
      r -= ly[k] * ly[k];
    }
    // Cancellation leaves noise of this order when the model fits exactly.
    rss = Math.max(r, 1e-15 * cp.yy);
  }

  /** Deviance at theta: twice the negative (restricted) log likelihood, variance profiled out. */
  public double deviance(double[] theta, Estimation by) {
    factor(theta);
    return deviance(by);
  }

  /** Deviance of the factored system. */
  public double deviance(Estimation by) {
    if (by == Estimation.REML) {
      int df = n - rank;
      return logDetL + logDetX + df * (1 + Math.log(2 * Math.PI * rss / df)) - cp.logWeights;
    }
    return logDetL + n * (1 + Math.log(2 * Math.PI * rss / n)) - cp.logWeights;
  }

  /** Squared length of a random column: its weighted number of rows. */
  double randomSquare(int column) {
    return cp.zz[column][column];
  }

  public boolean isDropped(int fixedColumn) {
    return dropped[fixedColumn];
  }

  /** Coefficients of the factored system: random columns first (in their own units), then fixed. */
  public double[] solve(double[] theta) {
    int k = m - 1;
    double[] s = new double[k];
    double[] ly = l[m - 1];
    for (int i = k - 1; i >= 0; i--) {
      if (i >= qb && dropped[i - qb]) {
        continue;
      }
      double v = ly[i];
      for (int r = i + 1; r < k; r++) {
        v -= l[r][i] * s[r];
      }
      s[i] = v / l[i][i];
    }
    double[] out = new double[q + p];
    for (int b = 0; b < qb; b++) {
      out[colB[b]] = scaleB[b] * s[b];
    }
    System.arraycopy(s, qb, out, q, p);
    for (int a = 0; a < qa; a++) {
      double th = rel(theta, colA[a]);
      if (th == 0) {
        continue;
      }
      coupling(a, th);
      double v = work[m - 1];
      for (int i = 0; i < k; i++) {
        v -= work[i] * s[i];
      }
      out[colA[a]] = th * v / dA[a];
    }
    return out;
  }

  /**
   * Inverse of the factored system in units of the coefficients: multiplied by the residual
   * variance it is the covariance of (predicted minus true random effects, fixed estimates).
   *
   * @return order as in {@link #solve}; rows of dropped columns are NaN
   */
  public double[][] inverse(double[] theta) {
    int k = m - 1;
    double[][] inv = lowerInverse(k);
    double[][] s = new double[k][k];
    for (int i = 0; i < k; i++) {
      for (int j = 0; j <= i; j++) {
        double v = 0;
        for (int r = i; r < k; r++) {
          v += inv[r][i] * inv[r][j];
        }
        s[i][j] = v;
        s[j][i] = v;
      }
    }
    double[][] out = new double[q + p][q + p];
    int[] place = new int[k];
    double[] scale = new double[k];
    for (int b = 0; b < qb; b++) {
      place[b] = colB[b];
      scale[b] = scaleB[b];
    }
    for (int i = 0; i < p; i++) {
      place[qb + i] = q + i;
      scale[qb + i] = 1;
    }
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        out[place[i]][place[j]] = scale[i] * scale[j] * s[i][j];
      }
    }
    double[][] c = new double[qa][];
    double[][] w = new double[qa][];
    for (int a = 0; a < qa; a++) {
      double th = rel(theta, colA[a]);
      coupling(a, th);
      c[a] = java.util.Arrays.copyOf(work, k);
      w[a] = new double[k];
      for (int i = 0; i < k; i++) {
        double v = 0;
        for (int j = 0; j < k; j++) {
          if (c[a][j] != 0) {
            v += s[i][j] * c[a][j];
          }
        }
        w[a][i] = th * v / dA[a];
        out[colA[a]][place[i]] = -scale[i] * w[a][i];
        out[place[i]][colA[a]] = -scale[i] * w[a][i];
      }
    }
    for (int a = 0; a < qa; a++) {
      double tha = rel(theta, colA[a]);
      for (int a2 = 0; a2 <= a; a2++) {
        double th2 = rel(theta, colA[a2]);
        double v = 0;
        for (int i = 0; i < k; i++) {
          v += w[a][i] * c[a2][i];
        }
        v *= th2 / dA[a2];
        if (a == a2) {
          v += tha * tha / dA[a];
        }
        out[colA[a]][colA[a2]] = v;
        out[colA[a2]][colA[a]] = v;
      }
    }
    for (int i = 0; i < p; i++) {
      if (dropped[i]) {
        for (int j = 0; j < q + p; j++) {
          out[q + i][j] = Double.NaN;
          out[j][q + i] = Double.NaN;
        }
      }
    }
    return out;
  }

  /**
   * What is left of some random columns, the response among them, once the fixed columns and the
   * other random effects at their variances are taken out: [Z' P Z, Z' P y; y' P Z, y' P y].
   *
   * @param theta relative standard deviations; 0 for the columns asked for
   * @param columns the columns Z
   * @return columns.length + 1 rows, the response last
   */
  double[][] information(double[] theta, int[] columns) {
    factor(theta);
    int c = columns.length;
    double[][] out = new double[c + 1][c + 1];
    double[][] rest = new double[c][m - 1];
    for (int i = 0; i < c; i++) {
      double[] zi = cp.zz[columns[i]];
      for (int j = 0; j <= i; j++) {
        out[i][j] = zi[columns[j]];
      }
      out[c][i] = cp.zy[columns[i]];
      for (int b = 0; b < qb; b++) {
        rest[i][b] = scaleB[b] * zi[colB[b]];
      }
      System.arraycopy(cp.fz[columns[i]], 0, rest[i], qb, p);
    }
    for (int a = 0; a < qa; a++) {
      double th = rel(theta, colA[a]);
      if (th == 0) {
        continue;
      }
      coupling(a, th);
      double[] za = cp.zz[colA[a]];
      for (int i = 0; i < c; i++) {
        double f = th * za[columns[i]] / dA[a];
        if (f == 0) {
          continue;
        }
        for (int j = 0; j <= i; j++) {
          out[i][j] -= f * th * za[columns[j]];
        }
        out[c][i] -= f * work[m - 1];
        for (int k = 0; k < m - 1; k++) {
          rest[i][k] -= f * work[k];
        }
      }
    }
    double[] ly = l[m - 1];
    for (int i = 0; i < c; i++) {
      double[] u = rest[i];
      for (int k = 0; k < m - 1; k++) {
        if (k >= qb && dropped[k - qb]) {
          u[k] = 0;
          continue;
        }
        double v = u[k];
        double[] lk = l[k];
        for (int r = 0; r < k; r++) {
          v -= lk[r] * u[r];
        }
        u[k] = v / lk[k];
        out[c][i] -= u[k] * ly[k];
      }
      for (int j = 0; j <= i; j++) {
        for (int k = 0; k < m - 1; k++) {
          out[i][j] -= u[k] * rest[j][k];
        }
      }
    }
    out[c][c] = rss;
    for (int i = 0; i <= c; i++) {
      for (int j = 0; j < i; j++) {
        out[j][i] = out[i][j];
      }
    }
    return out;
  }

  private double[][] lowerInverse(int k) {
    double[][] inv = new double[k][k];
    for (int j = 0; j < k; j++) {
      if (j >= qb && dropped[j - qb]) {
        continue;
      }
      inv[j][j] = 1 / l[j][j];
      for (int i = j + 1; i < k; i++) {
        if (i >= qb && dropped[i - qb]) {
          continue;
        }
        double v = 0;
        for (int r = j; r < i; r++) {
          v -= l[i][r] * inv[r][j];
        }
        inv[i][j] = v / l[i][i];
      }
    }
    return inv;
  }
}
