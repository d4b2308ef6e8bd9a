package org.padtrue.gauge;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.analysis.MultivariateFunction;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/**
 * Restricted maximum likelihood for crossed or nested random factors, balanced or not.
 *
 * <p>Minimises the profiled REML criterion in the relative standard deviations theta (factor over
 * residual): log|L|^2 + log|R|^2 + (n - k)(1 + log(2 pi r^2/(n - k))), L the factor of Lambda Z'Z
 * Lambda + I (Bates, Maechler, Bolker, Walker 2015, J. Stat. Softw. 67(1), section 3). Dense: made
 * for the few hundred readings of a gauge study.
 *
 * <p>The model of {@code mixed.reml} with unit weights. Kept beside it because gauge.json holds
 * what is found here in every digit: this search ends with one coordinate after the other, that one
 * does not, and the two differ in the eighth digit.
 */
final class GaugeReml {
  private static final double[] STARTS = {1, 0.2};
  private static final int POLISH = 30;
  private static final double LARGEST = 1e4;

  private final int n;
  private final int k;
  private final double scale;
  private final int[] factorOf;
  private final int factors;
  private final double[][] zz;
  private final double[][] zx;
  private final double[] zy;
  private final double[][] xx;
  private final double[] xy;
  private final double yy;

  /**
   * Result of a fit.
   *
   * @param sd standard deviation of each factor
   * @param residualSd residual standard deviation
   * @param criterion minus twice the restricted log likelihood
   */
  @SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
  record Fit(double[] sd, double residualSd, double criterion) {}

  /**
   * @param y responses
   * @param x fixed effects, one row a response, full column rank
   * @param levels per factor, the level (from 0) of each response
   */
  static Fit fit(double[] y, double[][] x, List<int[]> levels) {
    return new GaugeReml(y, x, levels).fit();
  }

  private GaugeReml(double[] y, double[][] x, List<int[]> levels) {
    n = y.length;
    k = x[0].length;
    factors = levels.size();
    double mean = Arrays.stream(y).average().orElse(0);
    double ss = Arrays.stream(y).map(v -> (v - mean) * (v - mean)).sum();
    scale = ss > 0 ? Math.sqrt(ss / n) : 1;
    int q = 0;
    int[] first = new int[factors];
    for (int f = 0; f < factors; f++) {
      first[f] = q;
      q += Arrays.stream(levels.get(f)).max().orElse(-1) + 1;
    }
    factorOf = new int[q];
    for (int f = 0; f < factors; f++) {
      Arrays.fill(factorOf, first[f], q, f);
    }
    zz = new double[q][q];
    zx = new double[q][k];
    zy = new double[q];
    xx = new double[k][k];
    xy = new double[k];
    double sum = 0;
    for (int i = 0; i < n; i++) {
      // A constant shift of y changes the intercept only; the fixed effects always hold one.
      double v = (y[i] - mean) / scale;
      sum += v * v;
      for (int a = 0; a < k; a++) {
        xy[a] += x[i][a] * v;
        for (int b = 0; b < k; b++) {
          xx[a][b] += x[i][a] * x[i][b];
        }
      }
      for (int f = 0; f < factors; f++) {
        int at = first[f] + levels.get(f)[i];
        zy[at] += v;
        for (int a = 0; a < k; a++) {
          zx[at][a] += x[i][a];
        }
        for (int g = 0; g < factors; g++) {
          zz[at][first[g] + levels.get(g)[i]]++;
        }
      }
    }
    yy = sum;
  }

  private Fit fit() {
    double[] best = new double[factors];
    double least = criterion(best);
    for (double start : STARTS) {
      double[] theta = factors == 0 ? best : search(start);
      double value = criterion(theta);
      if (value < least) {
        least = value;
        best = theta;
      }
    }
    best = polish(best);
    least = criterion(best);
    double residual = Math.sqrt(solve(best).r2 / (n - k)) * scale;
    double[] sd = new double[factors];
    for (int f = 0; f < factors; f++) {
      sd[f] = best[f] * residual;
    }
    return new Fit(sd, residual, least + 2 * (n - k) * Math.log(scale));
  }

  private double[] search(double start) {
    double[] from = new double[factors];
    Arrays.fill(from, start);
    MultivariateFunction f = t -> criterion(absolute(t));
    return absolute(
        new SimplexOptimizer(1e-9, 1e-9)
            .optimize(
                new MaxEval(20000),
                new ObjectiveFunction(f),
                GoalType.MINIMIZE,
                new InitialGuess(from),
                new NelderMeadSimplex(factors, 0.5 * start))
            .getPoint());
  }

  private static double[] absolute(double[] t) {
    return Arrays.stream(t).map(v -> Math.min(Math.abs(v), LARGEST)).toArray();
  }

  /** One coordinate after the other to full accuracy; a coordinate that does no good goes to 0. */
  private double[] polish(double[] start) {
    double[] t = start.clone();
    double before = criterion(t);
    for (int cycle = 0; cycle < POLISH; cycle++) {
      for (int f = 0; f < factors; f++) {
        t[f] = bestAlong(t, f);
      }
      double now = criterion(t);
      if (before - now < 1e-12 * Math.abs(now)) {
        break;
      }
      before = now;
    }
    return t;
  }

  private double bestAlong(double[] t, int f) {
    double[] trial = t.clone();
    double high = Math.max(2 * t[f], 0.1);
    double at =
        new BrentOptimizer(1e-10, 1e-12)
            .optimize(
                new MaxEval(500),
                new UnivariateObjectiveFunction(
                    v -> {
                      trial[f] = v;
                      return criterion(trial);
                    }),
                GoalType.MINIMIZE,
                new SearchInterval(0, high))
            .getPoint();
    trial[f] = at;
    double value = criterion(trial);
    trial[f] = 0;
    return criterion(trial) <= value ? 0 : at;
  }

  private double criterion(double[] theta) {
    Solved s = solve(theta);
    int df = n - k;
    return s.logDet + df * (1 + Math.log(2 * Math.PI * s.r2 / df));
  }

  /** What one set of theta gives. */
  private static final class Solved {
    double logDet;
    double r2;
  }

  private Solved solve(double[] theta) {
    int q = factorOf.length;
    Solved s = new Solved();
    // One factorisation of [Lambda Z'Z Lambda + I, Lambda Z'X, Lambda Z'y; ., X'X, X'y; ., ., y'y].
    int m = q + k + 1;
    double[][] a = new double[m][m];
    for (int i = 0; i < q; i++) {
      double ti = theta[factorOf[i]];
      for (int j = 0; j <= i; j++) {
        a[i][j] = ti * theta[factorOf[j]] * zz[i][j];
      }
      a[i][i] += 1;
      for (int c = 0; c < k; c++) {
        a[q + c][i] = ti * zx[i][c];
      }
      a[m - 1][i] = ti * zy[i];
    }
    for (int c = 0; c < k; c++) {
      System.arraycopy(xx[c], 0, a[q + c], q, c + 1);
      a[m - 1][q + c] = xy[c];
    }
    a[m - 1][m - 1] = yy;
    for (int i = 0; i < m; i++) {
      for (int j = 0; j <= i; j++) {
        double v = a[i][j];
        for (int l = 0; l < j; l++) {
          v -= a[i][l] * a[j][l];
        }
        if (i != j) {
          a[i][j] = v / a[j][j];
        } else if (i < m - 1) {
          a[i][i] = Math.sqrt(v);
          s.logDet += Math.log(v);
        } else {
          s.r2 = Math.max(v, 1e-300);
        }
      }
    }
    return s;
  }
}
