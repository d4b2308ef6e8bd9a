package org.padtrue.fit;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Cholesky;
import org.padtrue.numeric.Order;

/**
 * Least trimmed squares: the linear fit whose h smallest squared residuals have the least sum.
 *
 * <p>FAST-LTS, Rousseeuw and Van Driessen (2006), Data Min. Knowl. Disc. 12: many elemental starts,
 * two concentration steps each, the best carried on to convergence. A case may have several
 * equations (x and y of one placement); it is kept or trimmed as a whole. Deterministic: the
 * generator's seed is fixed.
 *
 * <p>Results are in the units of the columns and responses given, the objective in the square of
 * the latter.
 *
 * @param coefficients of the columns
 * @param kept the h cases kept
 * @param objective sum of the h smallest squared residuals
 */
public record TrimmedFit(double[] coefficients, int[] kept, double objective) {
  private static final int STARTS = 120;
  private static final int CARRY = 8;
  private static final int MAX_STEPS = 60;
  private static final int SAMPLE = 900;

  /** Cases with one or more equations each. */
  public interface Cases {
    /** Number of cases. */
    int size();

    /** Number of columns. */
    int columns();

    /** Equations per case. */
    int equations();

    /** Fills the design row of one equation of a case and returns its response. */
    double row(int i, int equation, double[] into);
  }

  /**
   * Fits.
   *
   * @param cases the cases
   * @param h how many to keep; at least enough to determine the columns
   */
  public static TrimmedFit fit(Cases cases, int h) {
    int n = cases.size();
    int need = (cases.columns() + cases.equations() - 1) / cases.equations();
    if (h < need || h > n) {
      throw new IllegalArgumentException("h = " + h + "; expected " + need + " to " + n);
    }
    Solver s = new Solver(cases);
    if (h == n) {
      int[] all = range(n);
      double[] b = s.solve(all, n);
      return new TrimmedFit(b, all, s.sum(b, all, n));
    }
    SplittableRandom random = new SplittableRandom(20260105L);
    int[] sample = n <= SAMPLE ? range(n) : subset(random, n, SAMPLE);
    int hs = Math.max(need, (int) Math.round((double) h * sample.length / n));
    double[][] best = new double[CARRY][];
    double[] value = new double[CARRY];
    Arrays.fill(value, Double.POSITIVE_INFINITY);
    for (int k = 0; k < STARTS; k++) {
      double[] b = start(s, random, sample, need);
      for (int c = 0; c < 2; c++) {
        b = s.concentrate(b, sample, hs);
      }
      keep(best, value, b, s.objective);
    }
    int[] all = range(n);
    if (n > SAMPLE) {
      // On the sample first: a step over all cases costs as much as a hundred over the sample.
      for (int i = 0; i < CARRY; i++) {
        if (best[i] != null) {
          best[i] = converge(s, best[i], sample, hs);
          value[i] = s.objective;
        }
      }
      dropAllBut(2, best, value);
    }
    double[] top = new double[cases.columns()];
    double topValue = Double.POSITIVE_INFINITY;
    for (double[] b0 : best) {
      if (b0 == null) {
        continue;
      }
      double[] b = converge(s, b0, all, h);
      if (s.objective < topValue) {
        topValue = s.objective;
        top = b;
      }
    }
    int[] kept = s.smallest(top, all, h);
    Arrays.sort(kept);
    return new TrimmedFit(top, kept, s.sum(top, kept, h));
  }

  private static double[] converge(Solver s, double[] from, int[] among, int h) {
    double[] b = from;
    double last = Double.POSITIVE_INFINITY;
    for (int c = 0; c < MAX_STEPS; c++) {
      b = s.concentrate(b, among, h);
      if (!(s.objective < last * (1 - 1e-9))) {
        break;
      }
      last = s.objective;
    }
    return b;
  }

  private static void dropAllBut(int keep, double[][] best, double[] value) {
    double[] sorted = value.clone();
    Arrays.sort(sorted);
    double limit = sorted[Math.min(keep, sorted.length) - 1];
    int kept = 0;
    for (int i = 0; i < best.length; i++) {
      if (value[i] > limit || kept >= keep) {
        best[i] = null;
      } else {
        kept++;
      }
    }
  }

  private static double[] start(Solver s, SplittableRandom random, int[] sample, int need) {
    for (int size = need; ; size++) {
      int take = Math.min(size, sample.length);
      int[] pick = subset(random, sample.length, take);
      for (int i = 0; i < take; i++) {
        pick[i] = sample[pick[i]];
      }
      double[] b = s.solve(pick, take);
      if (s.regular || take == sample.length) {
        return b;
      }
    }
  }

  private static void keep(double[][] best, double[] value, double[] b, double v) {
    int worst = 0;
    for (int i = 1; i < value.length; i++) {
      if (value[i] > value[worst]) {
        worst = i;
      }
      if (value[i] == v) {
        return;
      }
    }
    if (v < value[worst] && v != value[0]) {
      value[worst] = v;
      best[worst] = b;
    }
  }

  private static int[] range(int n) {
    int[] r = new int[n];
    for (int i = 0; i < n; i++) {
      r[i] = i;
    }
    return r;
  }

  private static int[] subset(SplittableRandom random, int n, int k) {
    int[] r = new int[k];
    java.util.Map<Integer, Integer> moved = new java.util.HashMap<>();
    for (int i = 0; i < k; i++) {
      int j = i + random.nextInt(n - i);
      r[i] = moved.getOrDefault(j, j);
      moved.put(j, moved.getOrDefault(i, i));
    }
    return r;
  }

  /**
   * Small normal equations with scaled columns, reused over steps. The design is asked for once and
   * kept without its zeros: starts look at every case hundreds of times.
   */
  private static final class Solver {
    private final int p;
    private final int equations;

    /** Where the entries of equation e of case i begin, at i times the equations plus e. */
    private final int[] from;

    private final int[] column;
    private final double[] value;
    private final double[] response;

    /** Where the terms of a case begin: what it adds to which cell of the normal equations. */
    private final int[] fromTerm;

    private final int[] cell;
    private final double[] term;

    /** Lower triangle by rows, p cells each, then the right-hand side. */
    private final double[] sums;

    private final double[][] a;
    private final double[] rhs;
    private double[] d2 = new double[0];
    private double @Nullable [] measured;
    private int @Nullable [] over;
    double objective;
    boolean regular;

    Solver(Cases cases) {
      p = cases.columns();
      equations = cases.equations();
      int rows = cases.size() * equations;
      from = new int[rows + 1];
      response = new double[rows];
      int[] c = new int[rows * p];
      double[] v = new double[rows * p];
      double[] row = new double[p];
      int entries = 0;
      int terms = 0;
      for (int i = 0; i < rows; i++) {
        response[i] = cases.row(i / equations, i % equations, row);
        for (int j = 0; j < p; j++) {
          if (row[j] != 0) {
            c[entries] = j;
            v[entries++] = row[j];
            terms += entries - from[i] + 1;
          }
        }
        from[i + 1] = entries;
      }
      column = Arrays.copyOf(c, entries);
      value = Arrays.copyOf(v, entries);
      fromTerm = new int[cases.size() + 1];
      cell = new int[terms];
      term = new double[terms];
      terms();
      sums = new double[p * p + p];
      a = new double[p][p];
      rhs = new double[p];
    }

    private void terms() {
      int t = 0;
      for (int e = 0; e < response.length; e++) {
        for (int i = from[e]; i < from[e + 1]; i++) {
          for (int j = from[e]; j <= i; j++) {
            cell[t] = p * column[i] + column[j];
            term[t++] = value[i] * value[j];
          }
          cell[t] = p * p + column[i];
          term[t++] = value[i] * response[e];
        }
        fromTerm[e / equations + 1] = t;
      }
    }

    double[] solve(int[] index, int count) {
      Arrays.fill(sums, 0);
      for (int k = 0; k < count; k++) {
        int end = fromTerm[index[k] + 1];
        for (int t = fromTerm[index[k]]; t < end; t++) {
          sums[cell[t]] += term[t];
        }
      }
      for (int i = 0; i < p; i++) {
        System.arraycopy(sums, p * i, a[i], 0, i + 1);
      }
      System.arraycopy(sums, p * p, rhs, 0, p);
      Cholesky factor = new Cholesky(a, 1e-10);
      regular = factor.isRegular();
      return factor.solve(rhs);
    }

    double squared(double[] b, int i) {
      double s = 0;
      for (int e = i * equations; e < (i + 1) * equations; e++) {
        double r = response[e];
        for (int j = from[e]; j < from[e + 1]; j++) {
          r -= value[j] * b[column[j]];
        }
        s += r * r;
      }
      return s;
    }

    double sum(double[] b, int[] index, int count) {
      double s = 0;
      for (int k = 0; k < count; k++) {
        s += squared(b, index[k]);
      }
      return s;
    }

    /** Squares of all cases; once only for one step's result and the next step's start. */
    private void measure(double[] b, int[] among) {
      if (b == measured && among == over) {
        return;
      }
      if (d2.length < among.length) {
        d2 = new double[among.length];
      }
      for (int k = 0; k < among.length; k++) {
        d2[k] = squared(b, among[k]);
      }
      measured = b;
      over = among;
    }

    /** Places in {@code among} of the h cases with the smallest squares. */
    int[] smallest(double[] b, int[] among, int h) {
      measure(b, among);
      double limit = Order.select(Arrays.copyOf(d2, among.length), h - 1);
      int[] kept = new int[h];
      int c = 0;
      for (int k = 0; k < among.length && c < h; k++) {
        if (d2[k] < limit) {
          kept[c++] = k;
        }
      }
      for (int k = 0; k < among.length && c < h; k++) {
        if (d2[k] == limit) {
          kept[c++] = k;
        }
      }
      return kept;
    }

    double[] concentrate(double[] b, int[] among, int h) {
      int[] places = smallest(b, among, h);
      int[] kept = new int[h];
      for (int k = 0; k < h; k++) {
        kept[k] = among[places[k]];
      }
      double[] next = solve(kept, h);
      measure(next, among);
      objective = 0;
      for (int k : places) {
        objective += d2[k];
      }
      return next;
    }
  }
}
