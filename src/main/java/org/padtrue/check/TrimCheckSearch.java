package org.padtrue.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What most likely happened to all terms at once. A trim that was not entered on one type must not
 * make the others look wrong, so the terms are settled together: step by step the change of one
 * term that explains most given the others, from several starts (all held, all not entered, ...),
 * until none explains more.
 */
final class TrimCheckSearch {
  private static final int STEPS = 4;
  private static final double LEAST_GAIN = 1e-6;

  private final TrimCheckGaussian gaussian;
  private final List<TrimCheckItem> items;
  private final List<List<TrimCheckHypothesis>> hypotheses = new ArrayList<>();
  private final int[][] free;
  private final int[][] own;
  private final int[] all;
  private final double[][][] covariance;
  private final int size;
  private TrimCheckHypothesis[] state;

  TrimCheckSearch(
      TrimCheckGaussian gaussian, List<TrimCheckItem> items, TrimCheckFrames frames, int size) {
    this.gaussian = gaussian;
    this.items = items;
    this.size = size;
    all = IntStream.range(0, size).toArray();
    own = new int[items.size()][];
    free = new int[items.size()][];
    covariance = new double[items.size()][][];
    for (int i = 0; i < items.size(); i++) {
      hypotheses.add(TrimCheckHypothesis.of(items.get(i), frames.of(i)));
      free[i] = shown(items.get(i));
      own[i] =
          IntStream.concat(
                  Arrays.stream(items.get(i).columns()).filter(c -> c >= 0),
                  Arrays.stream(frames.of(i)))
              .toArray();
      covariance[i] = free[i].length == 0 ? new double[0][0] : gaussian.covariance(free[i]);
    }
    state = search();
  }

  /** Columns of a term of which the article says something. */
  private int[] shown(TrimCheckItem item) {
    return Arrays.stream(item.columns()).filter(c -> c >= 0 && gaussian.k(c, c) > 1e-12).toArray();
  }

  private TrimCheckHypothesis[] search() {
    TrimCheckHypothesis[] best = settle(start(TrimCheckFinding.HELD));
    double least = energy(best);
    for (TrimCheckFinding f :
        List.of(
            TrimCheckFinding.NOT_ENTERED,
            TrimCheckFinding.WRONG_SIGN,
            TrimCheckFinding.ENTERED_TWICE,
            TrimCheckFinding.WRONG_UNIT,
            TrimCheckFinding.WRONG_FRAME)) {
      TrimCheckHypothesis[] other = settle(start(f));
      double e = energy(other);
      if (e < least - 1e-9) {
        least = e;
        best = other;
      }
    }
    return best;
  }

  private TrimCheckHypothesis[] start(TrimCheckFinding f) {
    TrimCheckHypothesis[] s = new TrimCheckHypothesis[items.size()];
    for (int i = 0; i < s.length; i++) {
      s[i] =
          hypotheses.get(i).stream()
              .filter(h -> h.finding() == f && h.whole())
              .findFirst()
              .orElse(TrimCheckHypothesis.PROMISE);
    }
    return s;
  }

  /** Takes the change that explains most, again and again: a mistake before what it leaks into. */
  private TrimCheckHypothesis[] settle(TrimCheckHypothesis[] s) {
    double[] g = gradient(s);
    for (int step = 0; step < STEPS * s.length; step++) {
      int at = -1;
      double gain = LEAST_GAIN;
      TrimCheckHypothesis to = TrimCheckHypothesis.PROMISE;
      for (int i = 0; i < s.length; i++) {
        shift(g, s[i], 1, own[i]);
        TrimCheckHypothesis best = best(i, g);
        double gained = energy(s[i], g) - energy(best, g);
        shift(g, s[i], -1, own[i]);
        if (gained > gain) {
          gain = gained;
          at = i;
          to = best;
        }
      }
      if (at < 0) {
        break;
      }
      shift(g, s[at], 1);
      s[at] = to;
      shift(g, to, -1);
    }
    return s;
  }

  private double[] gradient(TrimCheckHypothesis[] s) {
    double[] g = new double[size];
    for (int i = 0; i < size; i++) {
      g[i] = gaussian.h(i);
    }
    for (TrimCheckHypothesis h : s) {
      shift(g, h, -1);
    }
    return g;
  }

  /** Takes a hypothesis out of what is left to explain (sign 1), or puts it in (-1). */
  private void shift(double[] g, TrimCheckHypothesis h, int sign) {
    shift(g, h, sign, all);
  }

  /** The same where it matters: what a term may have become reads its own columns only. */
  private void shift(double[] g, TrimCheckHypothesis h, int sign, int[] columns) {
    for (int k = 0; k < h.index().length; k++) {
      for (int i : columns) {
        g[i] += sign * h.value()[k] * gaussian.k(i, h.index()[k]);
      }
    }
  }

  private TrimCheckHypothesis best(int i, double[] g) {
    TrimCheckHypothesis best = other(i, g);
    double least = energy(best, g);
    for (TrimCheckHypothesis h : hypotheses.get(i)) {
      double e = energy(h, g);
      if (e < least) {
        least = e;
        best = h;
      }
    }
    return best;
  }

  /** Any change at all: the one that explains most. */
  private TrimCheckHypothesis other(int i, double[] g) {
    double[] v = estimate(i, g);
    return new TrimCheckHypothesis(
        TrimCheckFinding.OTHER, "", free[i], v, TrimCheckHypothesis.OTHER);
  }

  private double[] estimate(int i, double[] g) {
    double[] v = new double[free[i].length];
    for (int a = 0; a < v.length; a++) {
      for (int b = 0; b < v.length; b++) {
        v[a] += covariance[i][a][b] * g[free[i][b]];
      }
    }
    return v;
  }

  /** Minus log likelihood of adding a hypothesis, against adding nothing, and its cost. */
  private double energy(TrimCheckHypothesis h, double[] g) {
    double e = h.cost();
    for (int a = 0; a < h.index().length; a++) {
      e -= h.value()[a] * g[h.index()[a]];
      for (int b = 0; b < h.index().length; b++) {
        e += 0.5 * h.value()[a] * h.value()[b] * gaussian.k(h.index()[a], h.index()[b]);
      }
    }
    return e;
  }

  private double energy(TrimCheckHypothesis[] s) {
    double[] g = new double[size];
    for (int i = 0; i < size; i++) {
      g[i] = gaussian.h(i);
    }
    double e = 0;
    for (TrimCheckHypothesis h : s) {
      e += energy(h, g);
      shift(g, h, -1);
    }
    return e;
  }

  /** What happened to a term. */
  TrimCheckHypothesis state(int item) {
    return state[item];
  }

  /** E'inv(V) times what is left when every term but one is explained. */
  double[] without(int item) {
    double[] g = gradient(state);
    if (item >= 0) {
      shift(g, state[item], 1);
    }
    return g;
  }

  /** E'inv(V) times the response, changes of terms that were not trimmed taken off. */
  double[] trimmedOnly() {
    TrimCheckHypothesis[] s = new TrimCheckHypothesis[items.size()];
    for (int i = 0; i < s.length; i++) {
      s[i] = items.get(i).trimmed() ? TrimCheckHypothesis.PROMISE : state[i];
    }
    return gradient(s);
  }

  /**
   * The term's own change by the second article alone, others as they were found.
   *
   * @param shown columns that it has
   * @param change estimate for each
   * @param error standard error of each
   */
  record Change(int[] shown, double[] change, double[] error) {}

  Change change(int item) {
    double[] v = estimate(item, without(item));
    double[] e = new double[v.length];
    for (int k = 0; k < v.length; k++) {
      e[k] = Math.sqrt(covariance[item][k][k]);
    }
    return new Change(free[item], v, e);
  }

  /**
   * How much more likely the promise is than the likeliest mistake on all axes, in units of log
   * likelihood, costs not counted; infinite when there is none to compare with.
   */
  double margin(int item) {
    double[] g = without(item);
    double least = Double.POSITIVE_INFINITY;
    for (TrimCheckHypothesis h : hypotheses.get(item)) {
      if (h.finding() != TrimCheckFinding.HELD && h.whole()) {
        least = Math.min(least, energy(h, g) - h.cost());
      }
    }
    return least;
  }

  /** Energy of a change that is not among the hypotheses of a term. */
  double energy(int item, TrimCheckHypothesis h) {
    return energy(h, without(item));
  }

  /** All coefficients together. */
  double[] total() {
    double[] m = new double[size];
    for (TrimCheckHypothesis h : state) {
      for (int k = 0; k < h.index().length; k++) {
        m[h.index()[k]] += h.value()[k];
      }
    }
    return m;
  }
}
