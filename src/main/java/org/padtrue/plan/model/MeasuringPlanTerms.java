package org.padtrue.plan.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.SemidefiniteCholesky;

/**
 * Turns unknowns into trims that measuring can settle.
 *
 * <p>An offset of one type alone is never known: all types could share a part of it with the common
 * offset. What is entered is the sum. So a trim is its unknown plus just as much of later kinds of
 * terms (see {@link MeasuringPlanFactor}) as makes it blind to the model's null space, in the least
 * squares sense: common = common + mean of types + mean of nozzles; type = common + type + mean of
 * its nozzles; nozzle = nozzle - mean of those it can be compared with. Its standard error goes to
 * zero with ever more readings, where that of the bare unknown would stop at the assumed spread.
 */
public final class MeasuringPlanTerms {
  private static final double SOLVED = 1e-6;

  private final List<MeasuringPlanColumn> columns;
  private final List<double[]> basis;

  private MeasuringPlanTerms(List<MeasuringPlanColumn> columns, List<double[]> basis) {
    this.columns = columns;
    this.basis = basis;
  }

  /** The trims that can be known, in the order of the unknowns. */
  public static List<MeasuringPlanTerm> of(MeasuringPlanModel model, MeasuringPlanNullSpace space) {
    MeasuringPlanTerms t = new MeasuringPlanTerms(model.columns(), space.basis());
    List<MeasuringPlanTerm> terms = new ArrayList<>();
    int from = 0;
    while (from < t.columns.size()) {
      int to = from;
      while (to < t.columns.size() && t.columns.get(to).factor() == t.columns.get(from).factor()) {
        to++;
      }
      t.block(from, to, terms);
      from = to;
    }
    return terms;
  }

  private void block(int from, int to, List<MeasuringPlanTerm> terms) {
    MeasuringPlanFactor factor = columns.get(from).factor();
    Solver later = new Solver(to);
    Solver own = factor.random() ? new Solver(from) : later;
    for (int j = from; j < to; j++) {
      double @Nullable [] c = null;
      if (factor.part()) {
        c = later.estimable(unit(j, columns.get(j).parent()));
      }
      if (c == null) {
        c = own.estimable(unit(j, -1));
      }
      if (c != null && Math.abs(c[j]) > SOLVED) {
        terms.add(term(j, c));
      }
    }
  }

  private double[] unit(int j, int parent) {
    double[] e = new double[columns.size()];
    e[j] = 1;
    if (parent >= 0) {
      e[parent] = 1;
    }
    return e;
  }

  private MeasuringPlanTerm term(int j, double[] c) {
    int n = 0;
    int[] at = new int[c.length];
    double[] by = new double[c.length];
    for (int i = 0; i < c.length; i++) {
      if (Math.abs(c[i]) > 1e-12) {
        at[n] = i;
        by[n++] = c[i];
      }
    }
    return new MeasuringPlanTerm(
        columns.get(j).name(), j, Arrays.copyOf(at, n), Arrays.copyOf(by, n));
  }

  /** Least change on the unknowns from an index on that makes a form blind to the null space. */
  private final class Solver {
    private final int from;
    private final SemidefiniteCholesky gram;

    Solver(int from) {
      this.from = from;
      int d = basis.size();
      double[][] g = new double[d][d];
      for (int i = 0; i < d; i++) {
        for (int j = 0; j <= i; j++) {
          g[i][j] = dotFrom(basis.get(i), basis.get(j), from);
          g[j][i] = g[i][j];
        }
      }
      gram = new SemidefiniteCholesky(g);
    }

    double @Nullable [] estimable(double[] e) {
      double[] rhs = new double[basis.size()];
      for (int i = 0; i < rhs.length; i++) {
        rhs[i] = -dotFrom(basis.get(i), e, 0);
      }
      double[] y = gram.solve(rhs);
      double[] c = e.clone();
      for (int i = 0; i < y.length; i++) {
        for (int k = from; k < c.length; k++) {
          c[k] += y[i] * basis.get(i)[k];
        }
      }
      for (double[] v : basis) {
        if (Math.abs(dotFrom(v, c, 0)) > SOLVED) {
          return null;
        }
      }
      return c;
    }
  }

  private static double dotFrom(double[] a, double[] b, int from) {
    double s = 0;
    for (int i = from; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }
}
