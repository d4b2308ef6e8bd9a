package org.padtrue.plan;

import java.util.Arrays;
import java.util.List;
import org.padtrue.numeric.Cholesky;
import org.padtrue.numeric.SymmetricMatrices;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanRow;
import org.padtrue.plan.model.MeasuringPlanTerm;

/**
 * The joint uncertainty of all unknowns for a set of measured candidates, kept up to date as
 * candidates come and go.
 *
 * <p>Information = 1/spread^2 on the diagonal + sum of x x'/sd^2 over the readings x of the chosen
 * candidates. A candidate has one or two readings X, so its coming changes the covariance S by -W
 * (sd^2 I + X'W)^-1 W' with W = S X (Woodbury), and its going by +W (sd^2 I - X'W)^-1 W'. The
 * variances of the terms are followed with it; nothing is inverted anew but in {@link #refresh}.
 *
 * <p>Where the placements of the panel are given a weight V (mean of x x' over all of them), the
 * mean square that is still not known, tr(V S), is followed too, by way of Q = S V S: a coming
 * candidate lowers it by tr(K X'QX), K the middle factor above.
 */
final class MeasuringPlanDesign {
  private final MeasuringPlanModel model;
  private final List<MeasuringPlanTerm> terms;
  private final double[][] weight;
  private final double noise;
  private final boolean[] in;
  private double[][] covariance;

  /** Q; empty when no weight is given. */
  private double[][] square;

  private double meanSquare;

  /** Per term: its form times the covariance. */
  private double[][] byTerm;

  private double[] variance;
  private int[] order;
  private double logDet;
  private int size;

  MeasuringPlanDesign(MeasuringPlanModel model, List<MeasuringPlanTerm> terms) {
    this(model, terms, new double[0][]);
  }

  /**
   * A design with nothing in it.
   *
   * @param weight V; empty when the mean square is not wanted
   */
  MeasuringPlanDesign(MeasuringPlanModel model, List<MeasuringPlanTerm> terms, double[][] weight) {
    this.model = model;
    this.terms = terms;
    this.weight = weight;
    square = new double[0][];
    noise = model.readingSd() * model.readingSd();
    in = new boolean[model.readings().size()];
    covariance = new double[0][];
    byTerm = new double[0][];
    variance = new double[0];
    order = new int[0];
    refresh();
  }

  private MeasuringPlanDesign(MeasuringPlanDesign o) {
    model = o.model;
    terms = o.terms;
    weight = o.weight;
    noise = o.noise;
    in = o.in.clone();
    covariance = deep(o.covariance);
    square = deep(o.square);
    meanSquare = o.meanSquare;
    byTerm = deep(o.byTerm);
    variance = o.variance.clone();
    order = o.order.clone();
    logDet = o.logDet;
    size = o.size;
  }

  MeasuringPlanDesign copy() {
    return new MeasuringPlanDesign(this);
  }

  boolean contains(int candidate) {
    return in[candidate];
  }

  /** Chosen candidates in their own order. */
  int[] chosen() {
    int[] c = new int[size];
    int n = 0;
    for (int i = 0; i < in.length; i++) {
      if (in[i]) {
        c[n++] = i;
      }
    }
    return c;
  }

  /** Variance of each term, in the order of the terms. */
  double[] variances() {
    return variance.clone();
  }

  /** Mean square that is still not known, tr(V S). */
  double meanSquare() {
    return meanSquare;
  }

  /** tr(V S V S): half the variance of the square whose mean is {@link #meanSquare}. */
  double meanSquareOfSquare() {
    double t = 0;
    for (int i = 0; i < weight.length; i++) {
      for (int j = 0; j < weight.length; j++) {
        t += weight[i][j] * square[i][j];
      }
    }
    return t;
  }

  /** Logarithm of the determinant of the information. */
  double logDet() {
    return logDet;
  }

  MeasuringPlanScore score(MeasuringPlanCriterion criterion) {
    return switch (criterion) {
      case MEAN -> new MeasuringPlanScore(meanSquare, -logDet);
      case WORST -> new MeasuringPlanScore(order.length == 0 ? 0 : variance[order[0]], -logDet);
      case DETERMINANT -> new MeasuringPlanScore(-logDet, 0);
      case TRACE -> new MeasuringPlanScore(Arrays.stream(variance).sum(), -logDet);
    };
  }

  void add(int candidate) {
    change(candidate, 1);
    in[candidate] = true;
    size++;
  }

  void remove(int candidate) {
    change(candidate, -1);
    in[candidate] = false;
    size--;
  }

  /** Adds every candidate at once. */
  void addAll() {
    Arrays.fill(in, true);
    size = in.length;
    refresh();
  }

  /** Builds everything anew from the chosen set; takes away the rounding of many updates. */
  void refresh() {
    int p = model.columns().size();
    double[][] information = new double[p][p];
    for (int i = 0; i < p; i++) {
      double sd = model.columns().get(i).priorSd();
      information[i][i] = 1 / (sd * sd);
    }
    for (int i = 0; i < in.length; i++) {
      if (in[i]) {
        for (MeasuringPlanRow r : model.readings().get(i)) {
          accumulate(information, r);
        }
      }
    }
    Cholesky factor = new Cholesky(information, 0);
    covariance = factor.inverse();
    logDet = factor.logDeterminant();
    byTerm = new double[terms.size()][p];
    variance = new double[terms.size()];
    for (int j = 0; j < terms.size(); j++) {
      MeasuringPlanTerm t = terms.get(j);
      for (int k = 0; k < t.at().length; k++) {
        double[] row = covariance[t.at()[k]];
        for (int i = 0; i < p; i++) {
          byTerm[j][i] += t.by()[k] * row[i];
        }
      }
      for (int k = 0; k < t.at().length; k++) {
        variance[j] += t.by()[k] * byTerm[j][t.at()[k]];
      }
    }
    refreshSquare();
    sortTerms();
  }

  private void refreshSquare() {
    if (weight.length == 0) {
      return;
    }
    double[][] vs = SymmetricMatrices.product(weight, covariance);
    square = SymmetricMatrices.product(covariance, vs);
    meanSquare = 0;
    for (int i = 0; i < vs.length; i++) {
      meanSquare += vs[i][i];
    }
  }

  private void accumulate(double[][] information, MeasuringPlanRow r) {
    for (int i = 0; i < r.at().length; i++) {
      for (int j = 0; j < r.at().length; j++) {
        information[r.at()[i]][r.at()[j]] += r.by()[i] * r.by()[j] / noise;
      }
    }
  }

  private void sortTerms() {
    Integer[] o = new Integer[variance.length];
    Arrays.setAll(o, i -> i);
    Arrays.sort(o, (a, b) -> Double.compare(variance[b], variance[a]));
    order = Arrays.stream(o).mapToInt(Integer::intValue).toArray();
  }

  private void change(int candidate, int sign) {
    MeasuringPlanRow[] x = model.readings().get(candidate);
    Gain g = new Gain(x, sign);
    int p = covariance.length;
    double[][] w = new double[x.length][p];
    for (int a = 0; a < x.length; a++) {
      for (int k = 0; k < x[a].at().length; k++) {
        double f = x[a].by()[k];
        double[] row = covariance[x[a].at()[k]];
        for (int i = 0; i < p; i++) {
          w[a][i] += f * row[i];
        }
      }
    }
    for (int j = 0; j < byTerm.length; j++) {
      double w0 = form(byTerm[j], x[0]);
      double w1 = x.length > 1 ? form(byTerm[j], x[1]) : 0;
      variance[j] -= sign * g.of(w0, w1);
      down(byTerm[j], w, sign * (g.k00 * w0 + g.k01 * w1), sign * (g.k01 * w0 + g.k11 * w1));
    }
    changeSquare(x, g, w, sign);
    for (int i = 0; i < p; i++) {
      double w0 = w[0][i];
      double w1 = x.length > 1 ? w[1][i] : 0;
      down(covariance[i], w, sign * (g.k00 * w0 + g.k01 * w1), sign * (g.k01 * w0 + g.k11 * w1));
    }
    logDet += g.logDet;
    sortTerms();
  }

  /** Q after S changes by -+W K W': Q -+ (W K U' + U K W') + W K (X'QX) K W', U = Q X. */
  private void changeSquare(MeasuringPlanRow[] x, Gain g, double[][] w, int sign) {
    if (weight.length == 0) {
      return;
    }
    int p = square.length;
    double[][] u = new double[2][p];
    for (int a = 0; a < x.length; a++) {
      for (int k = 0; k < x[a].at().length; k++) {
        double f = x[a].by()[k];
        double[] row = square[x[a].at()[k]];
        for (int i = 0; i < p; i++) {
          u[a][i] += f * row[i];
        }
      }
    }
    double s00 = form(u[0], x[0]);
    double s01 = x.length > 1 ? form(u[0], x[1]) : 0;
    double s11 = x.length > 1 ? form(u[1], x[1]) : 0;
    meanSquare -= sign * (g.k00 * s00 + 2 * g.k01 * s01 + g.k11 * s11);
    double[][] v = new double[2][p];
    for (int i = 0; i < p; i++) {
      double w0 = w[0][i];
      double w1 = x.length > 1 ? w[1][i] : 0;
      v[0][i] = g.k00 * w0 + g.k01 * w1;
      v[1][i] = g.k01 * w0 + g.k11 * w1;
    }
    for (int i = 0; i < p; i++) {
      double a0 = s00 * v[0][i] + s01 * v[1][i] - sign * u[0][i];
      double a1 = s01 * v[0][i] + s11 * v[1][i] - sign * u[1][i];
      double b0 = -sign * v[0][i];
      double b1 = -sign * v[1][i];
      double[] q = square[i];
      for (int j = 0; j < p; j++) {
        q[j] += a0 * v[0][j] + a1 * v[1][j] + b0 * u[0][j] + b1 * u[1][j];
      }
    }
  }

  private static void down(double[] row, double[][] w, double f0, double f1) {
    double[] a = w[0];
    if (w.length == 1) {
      for (int i = 0; i < row.length; i++) {
        row[i] -= f0 * a[i];
      }
      return;
    }
    double[] b = w[1];
    for (int i = 0; i < row.length; i++) {
      row[i] -= f0 * a[i] + f1 * b[i];
    }
  }

  /** Score with one more candidate; {@link MeasuringPlanScore#WORST} as soon as it is no better. */
  MeasuringPlanScore withOneMore(
      int candidate, MeasuringPlanCriterion criterion, MeasuringPlanScore toBeat) {
    MeasuringPlanRow[] x = model.readings().get(candidate);
    if (criterion == MeasuringPlanCriterion.WORST && hopeless(x, toBeat.first())) {
      return MeasuringPlanScore.WORST;
    }
    Gain g = new Gain(x, 1);
    MeasuringPlanScore s =
        switch (criterion) {
          case MEAN -> mean(x, g);
          case WORST -> worst(x, g, toBeat.first());
          case DETERMINANT -> new MeasuringPlanScore(-logDet - g.logDet, 0);
          case TRACE -> trace(x, g);
        };
    return s.betterThan(toBeat) ? s : MeasuringPlanScore.WORST;
  }

  /**
   * Gain in information from one more candidate, or -1 when a term would stay above a variance.
   *
   * @param cap largest variance allowed
   */
  double informationWithin(int candidate, double cap) {
    MeasuringPlanRow[] x = model.readings().get(candidate);
    if (hopeless(x, cap)) {
      return -1;
    }
    Gain g = new Gain(x, 1);
    return Double.isInfinite(worst(x, g, cap).first()) ? -1 : g.logDet;
  }

  /**
   * Cheap: a reading of variance s lowers a term's variance by w^2/(s + x'Sx), so by w^2/s at most;
   * most candidates do not help the worst term even so.
   */
  private boolean hopeless(MeasuringPlanRow[] x, double bound) {
    if (order.length == 0 || Double.isInfinite(bound)) {
      return false;
    }
    int j = order[0];
    double w0 = form(byTerm[j], x[0]);
    double w1 = x.length > 1 ? form(byTerm[j], x[1]) : 0;
    return variance[j] - (w0 * w0 + w1 * w1) / noise > bound * (1 + MeasuringPlanScore.TIE);
  }

  private MeasuringPlanScore worst(MeasuringPlanRow[] x, Gain g, double bound) {
    double limit = bound * (1 + MeasuringPlanScore.TIE);
    double max = 0;
    for (int j : order) {
      if (variance[j] <= max) {
        break;
      }
      double w0 = form(byTerm[j], x[0]);
      double w1 = x.length > 1 ? form(byTerm[j], x[1]) : 0;
      max = Math.max(max, variance[j] - g.of(w0, w1));
      if (max > limit) {
        return MeasuringPlanScore.WORST;
      }
    }
    return new MeasuringPlanScore(max, -logDet - g.logDet);
  }

  private MeasuringPlanScore mean(MeasuringPlanRow[] x, Gain g) {
    double lowered = g.k00 * squareForm(x[0], x[0]);
    if (x.length > 1) {
      lowered += 2 * g.k01 * squareForm(x[0], x[1]) + g.k11 * squareForm(x[1], x[1]);
    }
    return new MeasuringPlanScore(meanSquare - lowered, -logDet - g.logDet);
  }

  private double squareForm(MeasuringPlanRow a, MeasuringPlanRow b) {
    double s = 0;
    for (int k = 0; k < a.at().length; k++) {
      s += a.by()[k] * form(square[a.at()[k]], b);
    }
    return s;
  }

  private MeasuringPlanScore trace(MeasuringPlanRow[] x, Gain g) {
    double sum = 0;
    for (int j = 0; j < variance.length; j++) {
      double w1 = x.length > 1 ? form(byTerm[j], x[1]) : 0;
      sum += variance[j] - g.of(form(byTerm[j], x[0]), w1);
    }
    return new MeasuringPlanScore(sum, -logDet - g.logDet);
  }

  private static double form(double[] dense, MeasuringPlanRow r) {
    double s = 0;
    for (int k = 0; k < r.at().length; k++) {
      s += dense[r.at()[k]] * r.by()[k];
    }
    return s;
  }

  private double form(MeasuringPlanRow a, MeasuringPlanRow b) {
    double s = 0;
    for (int k = 0; k < a.at().length; k++) {
      s += a.by()[k] * form(covariance[a.at()[k]], b);
    }
    return s;
  }

  private static double[][] deep(double[][] a) {
    double[][] c = new double[a.length][];
    for (int i = 0; i < a.length; i++) {
      c[i] = a[i].clone();
    }
    return c;
  }

  /** Inverse of sd^2 I +- X' S X, one or two rows. */
  private final class Gain {
    final double k00;
    final double k01;
    final double k11;
    final double logDet;

    Gain(MeasuringPlanRow[] x, int sign) {
      double s00 = noise + sign * form(x[0], x[0]);
      if (x.length == 1) {
        k00 = 1 / s00;
        k01 = 0;
        k11 = 0;
        logDet = Math.log(s00 / noise);
        return;
      }
      double s01 = sign * form(x[0], x[1]);
      double s11 = noise + sign * form(x[1], x[1]);
      double det = s00 * s11 - s01 * s01;
      k00 = s11 / det;
      k01 = -s01 / det;
      k11 = s00 / det;
      logDet = Math.log(det / (noise * noise));
    }

    double of(double w0, double w1) {
      return w0 * w0 * k00 + 2 * w0 * w1 * k01 + w1 * w1 * k11;
    }
  }

  /** Largest relative difference of the term variances from those computed anew. */
  double drift() {
    MeasuringPlanDesign fresh = copy();
    fresh.refresh();
    double worst = 0;
    for (int j = 0; j < variance.length; j++) {
      worst = Math.max(worst, Math.abs(variance[j] / fresh.variance[j] - 1));
    }
    return worst;
  }
}
