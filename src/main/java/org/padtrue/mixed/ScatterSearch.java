package org.padtrue.mixed;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.reml.CrossProducts;
import org.padtrue.mixed.reml.Estimation;
import org.padtrue.mixed.reml.MixedSystem;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.ThetaSearch;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * Scatter by part type and axis in the model of positions.
 *
 * <p>At the REML estimate of a variance that a group of rows shares, the sum of squared residuals e
 * over the group equals the variance times the sum of 1 - h, h the leverage of fixed and random
 * columns together (the score equation with e = R P y and 1 - h = R P; Smyth 2002, J. Comput.
 * Graph. Stat. 11). That sum is the group's degrees of freedom. Each round takes variances from it,
 * lets them lean on each other and weighs the rows anew. Where the stated uncertainties of a type's
 * rows differ, row i has sigma^2 + u_i^2.
 */
final class ScatterSearch {
  private static final int ROUNDS = 8;
  private static final int LARGE = 300;
  private static final double SETTLED = 2e-3;
  private static final double AXES_ALPHA = 0.05;

  /** A type whose own offset takes all its rows says nothing of its scatter. */
  private static final double LEAST_DF = 0.25;

  /**
   * What was found.
   *
   * @param weights of the rows
   * @param scatter by type
   * @param meanVariance mean variance of the rows, of which the weights are the inverse share
   */
  record Found(RowWeights weights, TypeScatter scatter, double meanVariance) {}

  private final PositionColumns cols;
  private final FamilyMap map;
  private final DeviationTable t;
  private final List<String> types;
  private final int[] typeOf;
  private final double[] mean2;
  private final double[] cos;
  private final double[] sin;
  private double[] theta = {};
  private double[] relative;

  private final double[] ss;
  private final double[] df;
  private final double[] axis = new double[8];

  private ScatterSearch(PositionColumns cols, FamilyMap map) {
    this.cols = cols;
    this.map = map;
    t = cols.table;
    cos = t.cosTheta();
    sin = t.sinTheta();
    @Nullable LevelColumn part = t.factors().get(Factor.PART);
    boolean all = part != null && Arrays.stream(part.level()).allMatch(l -> l >= 0);
    types = part == null || !all ? List.of("") : part.levels();
    typeOf = part == null || !all ? new int[t.size()] : part.level();
    mean2 = new double[types.size()];
    int[] n = new int[types.size()];
    for (int i = 0; i < t.size(); i++) {
      mean2[typeOf[i]] += sq(known(t.u()[i]));
      n[typeOf[i]]++;
    }
    for (int k = 0; k < n.length; k++) {
      mean2[k] /= Math.max(1, n[k]);
    }
    ss = new double[types.size()];
    df = new double[types.size()];
    relative = new double[t.size()];
    Arrays.fill(relative, 1);
  }

  /**
   * Searches.
   *
   * @param cols columns
   * @param map fixed terms of the richest family, at a converged shape
   * @param start weights to start from
   * @return null where the rows carry no scatter
   */
  static @Nullable Found of(PositionColumns cols, FamilyMap map, RowWeights start) {
    return new ScatterSearch(cols, map).run(start);
  }

  private static double sq(double v) {
    return v * v;
  }

  private static double known(double u) {
    return Double.isNaN(u) ? 0 : u;
  }

  private @Nullable Found run(RowWeights start) {
    RowWeights w = start;
    double fx = 1;
    double fy = 1;
    boolean turn = false;
    boolean chosen = false;
    for (int round = 0; round < ROUNDS; round++) {
      look(w);
      double[] s2 = s2();
      if (Arrays.stream(df).sum() < LEAST_DF) {
        return null;
      }
      // While weights settle, the plain prior will do; what is left open is averaged at the end.
      ScatterPrior prior = ScatterPrior.ofMoments(s2, df);
      double[] next = prior.variances(s2, df);
      boolean settled = settled(current, next);
      current = next;
      if (settled && !chosen || round == ROUNDS - 3) {
        chosen = true;
        double[] f = axes();
        fx = f[0];
        fy = f[1];
        turn = f[2] > 0;
        settled = fx == 1;
      }
      w = weigh(current, fx, fy, turn);
      if (settled && chosen) {
        break;
      }
    }
    // One group more: a type that nobody measured.
    int n = ss.length;
    ModeratedScatter m = ModeratedScatter.of(Arrays.copyOf(s2(), n + 1), Arrays.copyOf(df, n + 1));
    double[] variance = Arrays.copyOf(m.variance(), n);
    w = weigh(variance, fx, fy, turn);
    double[] own = new double[n];
    for (int k = 0; k < n; k++) {
      own[k] = df[k] > 0 ? ss[k] / df[k] : Double.NaN;
    }
    double[] measuring = new double[n];
    boolean stated = Arrays.stream(t.u()).noneMatch(Double::isNaN);
    for (int k = 0; k < n; k++) {
      measuring[k] = stated ? mean2[k] : Double.NaN;
    }
    TypeScatter scatter =
        new TypeScatter(
            types,
            variance,
            Arrays.copyOf(m.df(), n),
            own,
            df.clone(),
            measuring,
            m.variance()[n],
            m.df()[n],
            fx,
            fy,
            turn);
    return new Found(w, scatter, meanVariance);
  }

  private double[] s2() {
    double[] s2 = new double[ss.length];
    for (int k = 0; k < s2.length; k++) {
      df[k] = df[k] < LEAST_DF ? 0 : df[k];
      s2[k] = df[k] == 0 ? 0 : Math.max(ss[k] / df[k], 1e-14);
    }
    return s2;
  }

  private static boolean settled(double[] last, double[] next) {
    if (last.length != next.length) {
      return false;
    }
    for (int k = 0; k < next.length; k++) {
      if (Math.abs(next[k] - last[k]) > SETTLED * next[k]) {
        return false;
      }
    }
    return true;
  }

  private double meanVariance = 1;

  private RowWeights weigh(double[] variance, double fx, double fy, boolean turn) {
    int n = t.size();
    double[] vx = new double[n];
    double[] vy = new double[n];
    double sum = 0;
    for (int i = 0; i < n; i++) {
      double total = variance[typeOf[i]];
      double m = mean2[typeOf[i]];
      double placing = Math.max(total - m, 0.05 * total);
      relative[i] = (placing + sq(known(t.u()[i]))) / (placing + m);
      double c2 = turn ? sq(cos[i]) : 1;
      double v = total * relative[i];
      vx[i] = v * (c2 * fx + (1 - c2) * fy);
      vy[i] = v * (c2 * fy + (1 - c2) * fx);
      sum += 0.5 * (vx[i] + vy[i]) / n;
    }
    meanVariance = sum;
    for (int i = 0; i < n; i++) {
      vx[i] = sum / vx[i];
      vy[i] = sum / vy[i];
    }
    return fx == 1 ? RowWeights.both(vx) : new RowWeights(vx, vy);
  }

  /** Sums of squares and of 1 - leverage by type, in units of the type's mean uncertainty. */
  private void look(RowWeights w) {
    PositionColumns c =
        w.axesApart() ? new PositionColumns(t, cols.factors, cols.free, true) : cols;
    CrossProducts cp = c.accumulate(w);
    RandomEffects re =
        new RandomEffects(cp.map(map.c(), map.offset()), c.thetaOf, c.blockOf, c.parameters);
    MixedSystem s = re.system();
    theta = ThetaSearch.minimise(th -> s.deviance(th, Estimation.REML), re.parameters(), theta);
    s.factor(theta);
    double[] b = s.solve(theta);
    double[][] inv = s.q + s.p > LARGE && w != RowWeights.EQUAL ? inverse : s.inverse(theta);
    inverse = inv;
    Arrays.fill(ss, 0);
    Arrays.fill(df, 0);
    Arrays.fill(axis, 0);
    int[] idx = new int[s.p + 2 * c.factors.size()];
    double[] val = new double[idx.length];
    double[] e = new double[2];
    double[] free = new double[2];
    double[][] cm = map.c();
    double[] off = map.offset();
    c.forEachRow(
        (i, a, fi, fv, nf, zi, zv, nz, y) -> {
          int m = 0;
          double r = y;
          for (int z = 0; z < nz; z++) {
            idx[m] = zi[z];
            val[m++] = zv[z];
            r -= b[zi[z]] * zv[z];
          }
          for (int f = 0; f < nf; f++) {
            r -= off[fi[f]] * fv[f];
          }
          for (int j = 0; j < s.p; j++) {
            double x = 0;
            for (int f = 0; f < nf; f++) {
              x += cm[j][fi[f]] * fv[f];
            }
            if (x != 0 && !s.isDropped(j)) {
              idx[m] = s.q + j;
              val[m++] = x;
              r -= b[s.q + j] * x;
            }
          }
          double h = 0;
          for (int k = 0; k < m; k++) {
            double[] row = inv[idx[k]];
            for (int l = 0; l < m; l++) {
              h += val[k] * row[idx[l]] * val[l];
            }
          }
          e[a] = r;
          free[a] = Math.max(0, 1 - w.of(i, a) * h);
          if (a == 1) {
            add(i, e, free, w);
          }
        });
  }

  private double[][] inverse = {};

  private void add(int i, double[] e, double[] free, RowWeights w) {
    int k = typeOf[i];
    // Axis factors are taken off by the weights' ratio: a row's mean variance is the type's.
    double wx = w.of(i, 0);
    double wy = w.of(i, 1);
    double ax = w.axesApart() ? 2 * wy / (wx + wy) : 1;
    double ay = w.axesApart() ? 2 * wx / (wx + wy) : 1;
    ss[k] += (sq(e[0]) / ax + sq(e[1]) / ay) / relative[i];
    df[k] += free[0] + free[1];
    double v = relative[i] * variances(k);
    axis[0] += sq(e[0]) / v;
    axis[1] += free[0];
    axis[2] += sq(e[1]) / v;
    axis[3] += free[1];
    double u = cos[i] * e[0] + sin[i] * e[1];
    double n = -sin[i] * e[0] + cos[i] * e[1];
    double c2 = sq(cos[i]);
    axis[4] += sq(u) / v;
    axis[5] += c2 * free[0] + (1 - c2) * free[1];
    axis[6] += sq(n) / v;
    axis[7] += c2 * free[1] + (1 - c2) * free[0];
  }

  private double[] current = {};

  private double variances(int k) {
    return current.length == 0 ? 1 : current[k];
  }

  /**
   * Whether x and y scatter differently, along the panel or along the parts.
   *
   * @return factors of x and y (mean 1, shrunk by how clearly they differ) and 1 when they turn
   */
  private double[] axes() {
    double best = 0;
    double[] f = {1, 1, 0};
    for (int k = 0; k < 2; k++) {
      double sx = axis[4 * k];
      double dx = axis[4 * k + 1];
      double sy = axis[4 * k + 2];
      double dy = axis[4 * k + 3];
      if (!(dx > 3) || !(dy > 3) || !(sx > 0) || !(sy > 0)) {
        continue;
      }
      double ratio = sx / dx / (sy / dy);
      double p = 2 * Math.min(Tails.f(ratio, dx, dy), Tails.f(1 / ratio, dy, dx));
      double lr = Math.abs(Math.log(ratio)) / Math.sqrt(2 / dx + 2 / dy);
      // Two frames are looked at.
      if (2 * p < AXES_ALPHA && lr > best) {
        best = lr;
        double r = Math.exp(Math.log(ratio) * (1 - 1 / (lr * lr)));
        f = new double[] {2 * r / (1 + r), 2 / (1 + r), k};
      }
    }
    return f;
  }
}
