package org.padtrue.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.FDistribution;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Cholesky;
import org.padtrue.numeric.Order;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;

/**
 * Panel transform plus level offsets, first by medians, then by shrunken means of the clean rows;
 * serves deletion residuals.
 *
 * <p>A level of three rows and more is believed as its median stands, however far from the others:
 * its offset has a spread of its own, at least its size. Scatter differs by part type; a type of
 * few rows leans on the others.
 */
final class RobustLevels {
  private final DeviationTable t;
  private final int n;
  private final double[] cos;
  private final double[] sin;
  private final double[] px;
  private final double[] py;
  private final int panels;
  private final int columns;
  private double[] beta;
  private final List<Grouping> groups = new ArrayList<>();
  private final @Nullable LevelColumn part;
  private double sd;
  private double df;
  private final double[] sdOf;
  private final double[] dfOf;

  /** A median of m values has the variance of a mean of m / 1.57. */
  private static final double MEDIAN_VARIANCE = 1.57;

  /** Efficiency of the median absolute deviation. */
  private static final double MAD_EFFICIENCY = 0.37;

  /** One factor with its level offsets. */
  private static final class Grouping {
    final LevelColumn factor;
    final boolean partFrame;
    final double[] ox;
    final double[] oy;
    final double[] sx;
    final double[] sy;
    final int[] count;

    /** Rows behind the median of each level, 0 where there were too few. */
    final int[] medianOf;

    /** Spread that the offset of each level may have, mm: at least what its median shows. */
    final double[] tau;

    double spread;

    Grouping(LevelColumn factor, boolean partFrame) {
      this.factor = factor;
      this.partFrame = partFrame;
      int k = factor.levels().size();
      ox = new double[k];
      oy = new double[k];
      sx = new double[k];
      sy = new double[k];
      count = new int[k];
      medianOf = new int[k];
      tau = new double[k];
    }
  }

  RobustLevels(DeviationTable t) {
    this.t = t;
    n = t.size();
    cos = t.cosTheta();
    sin = t.sinTheta();
    panels = t.panels().size();
    double mx = 0;
    double my = 0;
    for (int i = 0; i < n; i++) {
      mx += t.x()[i] / n;
      my += t.y()[i] / n;
    }
    double s = 0;
    for (int i = 0; i < n; i++) {
      s += (sq(t.x()[i] - mx) + sq(t.y()[i] - my)) / n;
    }
    double scale = s > 0 ? Math.sqrt(s) : 1;
    px = new double[n];
    py = new double[n];
    for (int i = 0; i < n; i++) {
      px[i] = (t.x()[i] - mx) / scale;
      py[i] = (t.y()[i] - my) / scale;
    }
    // Few placements carry no six parameters next to a quarter of bad ones.
    columns = 2 * panels + (n >= 10 + 2 * panels ? 4 : 0);
    beta = new double[columns];
    for (LevelColumn f : t.factors().values()) {
      if (f.levels().size() > 1) {
        groups.add(new Grouping(f, f.factor().frame() == OffsetFrame.PART));
      }
    }
    part = t.factors().get(Factor.PART);
    int types = part == null ? 0 : part.levels().size();
    sdOf = new double[types];
    dfOf = new double[types];
  }

  private static double sq(double v) {
    return v * v;
  }

  double sd() {
    return sd;
  }

  private int type(int i) {
    return part == null ? -1 : part.level()[i];
  }

  /** Scatter per axis of a row's part type, mm. */
  double sd(int i) {
    int k = type(i);
    return k < 0 ? sd : sdOf[k];
  }

  /** Degrees of freedom of {@link #sd(int)}. */
  double degreesOfFreedom(int i) {
    int k = type(i);
    return k < 0 ? df : dfOf[k];
  }

  private double panelX(int i) {
    int p = 2 * t.panel()[i];
    int a = 2 * panels;
    return beta[p] + (columns > a ? beta[a] * px[i] + beta[a + 1] * py[i] : 0);
  }

  private double panelY(int i) {
    int p = 2 * t.panel()[i];
    int a = 2 * panels;
    return beta[p + 1] + (columns > a ? beta[a + 2] * px[i] + beta[a + 3] * py[i] : 0);
  }

  private double levelX(Grouping g, int i) {
    int k = g.factor.level()[i];
    if (k < 0) {
      return 0;
    }
    return g.partFrame ? cos[i] * g.ox[k] - sin[i] * g.oy[k] : g.ox[k];
  }

  private double levelY(Grouping g, int i) {
    int k = g.factor.level()[i];
    if (k < 0) {
      return 0;
    }
    return g.partFrame ? sin[i] * g.ox[k] + cos[i] * g.oy[k] : g.oy[k];
  }

  private double[] residual(int i, @Nullable Grouping without) {
    double rx = t.dx()[i] - panelX(i);
    double ry = t.dy()[i] - panelY(i);
    for (Grouping g : groups) {
      if (g != without) {
        rx -= levelX(g, i);
        ry -= levelY(g, i);
      }
    }
    if (without != null && without.partFrame) {
      return new double[] {cos[i] * rx + sin[i] * ry, -sin[i] * rx + cos[i] * ry};
    }
    return new double[] {rx, ry};
  }

  /**
   * Trimmed fit of the panel to what the level offsets leave.
   *
   * @param out rows left out
   * @param share of the rows that are believed
   * @param common true fits an offset beside it that all parts share and that turns with them
   */
  private void trimmedPanel(boolean[] out, double share, boolean common) {
    int[] clean = clean(out);
    int m = clean.length;
    int c = columns + (common ? 2 : 0);
    int h = Math.max((c + 1) / 2, (int) Math.ceil(share * m));
    if (m < (c + 1) / 2) {
      return;
    }
    double[][] r = new double[m][];
    for (int k = 0; k < m; k++) {
      r[k] = offsetsOff(clean[k]);
    }
    double[] all =
        TrimmedFit.fit(
                new TrimmedFit.Cases() {
                  @Override
                  public int size() {
                    return m;
                  }

                  @Override
                  public int columns() {
                    return c;
                  }

                  @Override
                  public int equations() {
                    return 2;
                  }

                  @Override
                  public double row(int k, int equation, double[] into) {
                    int i = clean[k];
                    fill(i, equation, into);
                    if (common) {
                      into[columns] = equation == 0 ? cos[i] : sin[i];
                      into[columns + 1] = equation == 0 ? -sin[i] : cos[i];
                    }
                    return r[k][equation];
                  }
                },
                Math.min(h, m))
            .coefficients();
    beta = Arrays.copyOf(all, columns);
  }

  private double[] offsetsOff(int i) {
    double rx = t.dx()[i];
    double ry = t.dy()[i];
    for (Grouping g : groups) {
      rx -= levelX(g, i);
      ry -= levelY(g, i);
    }
    return new double[] {rx, ry};
  }

  private void fill(int i, int equation, double[] into) {
    Arrays.fill(into, 0);
    into[2 * t.panel()[i] + equation] = 1;
    if (columns > 2 * panels) {
      into[2 * panels + 2 * equation] = px[i];
      into[2 * panels + 2 * equation + 1] = py[i];
    }
  }

  private int[] clean(boolean[] out) {
    int[] c = new int[n];
    int m = 0;
    for (int i = 0; i < n; i++) {
      if (!out[i]) {
        c[m++] = i;
      }
    }
    return Arrays.copyOf(c, m);
  }

  /**
   * Trimmed panel fit and medians by level, three rounds, from two starts: most rows agree on the
   * panel, or a bare majority does once an offset that turns with the parts is allowed for (a large
   * type that is off as a whole). The one that explains three quarters of the rows better is taken.
   */
  void start(boolean[] out) {
    double plain = roundsFrom(out, 0.75, false);
    int[] clean = clean(out);
    if (clean.length >= 2 * (columns + 2)) {
      State first = new State();
      double other = roundsFrom(out, 0.55, true);
      if (!(other < 0.7 * plain)) {
        first.restore();
      }
    }
    startScatter(out);
    spreads(out);
  }

  /** What a start has set, so that it can be taken back. */
  private final class State {
    private final double[] b = beta.clone();
    private final List<double[][]> offsets = new ArrayList<>();
    private final List<int[]> medians = new ArrayList<>();

    State() {
      for (Grouping g : groups) {
        offsets.add(new double[][] {g.ox.clone(), g.oy.clone()});
        medians.add(g.medianOf.clone());
      }
    }

    void restore() {
      beta = b;
      for (int k = 0; k < groups.size(); k++) {
        Grouping g = groups.get(k);
        System.arraycopy(offsets.get(k)[0], 0, g.ox, 0, g.ox.length);
        System.arraycopy(offsets.get(k)[1], 0, g.oy, 0, g.oy.length);
        System.arraycopy(medians.get(k), 0, g.medianOf, 0, g.medianOf.length);
      }
    }
  }

  /** Three rounds; gives the sum of the smallest three quarters of squared residuals. */
  private double roundsFrom(boolean[] out, double share, boolean common) {
    for (Grouping g : groups) {
      Arrays.fill(g.ox, 0);
      Arrays.fill(g.oy, 0);
    }
    for (int round = 0; round < 3; round++) {
      trimmedPanel(out, round == 0 ? share : 0.75, common && round == 0);
      for (Grouping g : groups) {
        medians(g, out);
      }
    }
    int[] clean = clean(out);
    double[] d2 = new double[clean.length];
    for (int k = 0; k < d2.length; k++) {
      double[] r = residual(clean[k], null);
      d2[k] = sq(r[0]) + sq(r[1]);
    }
    Arrays.sort(d2);
    double sum = 0;
    for (int k = 0; k < (3 * d2.length + 3) / 4; k++) {
      sum += d2[k];
    }
    return sum;
  }

  /** Robust scatter, pooled and by part type. */
  private void startScatter(boolean[] out) {
    int[] clean = clean(out);
    int types = sdOf.length;
    int[] rows = new int[types + 1];
    for (int i : clean) {
      rows[type(i) < 0 ? types : type(i)]++;
    }
    double[][] comp = new double[types + 1][];
    for (int k = 0; k <= types; k++) {
      comp[k] = new double[2 * rows[k]];
    }
    double[] all = new double[2 * clean.length];
    double used = columns;
    for (Grouping g : groups) {
      for (int m : g.medianOf) {
        used += m > 0 ? 2 : 0;
      }
    }
    int[] at = new int[types + 1];
    for (int k = 0; k < clean.length; k++) {
      double[] r = residual(clean[k], null);
      int type = type(clean[k]) < 0 ? types : type(clean[k]);
      comp[type][at[type]++] = r[0];
      comp[type][at[type]++] = r[1];
      all[2 * k] = r[0];
      all[2 * k + 1] = r[1];
    }
    double full = Math.max(2, all.length - used);
    sd = Math.max(1e-6, Order.scale(all, all.length) * Math.sqrt(all.length / full));
    df = Math.max(3, MAD_EFFICIENCY * full);
    double[] s2 = new double[types];
    double[] d = new double[types];
    double rest = Math.max(0.2, full / Math.max(1, all.length));
    for (int k = 0; k < types; k++) {
      // A type's own median is fitted to its own rows; the rest is shared by all.
      double own = rows[k] >= 4 ? rest * comp[k].length : 0;
      if (own > 0) {
        s2[k] = sq(Math.max(1e-6, Order.scale(comp[k], comp[k].length))) / rest;
        d[k] = MAD_EFFICIENCY * own;
      }
    }
    moderate(s2, d);
  }

  private void moderate(double[] s2, double[] d) {
    if (sdOf.length == 0) {
      return;
    }
    ScatterPrior prior = ScatterPrior.ofMoments(s2, d);
    double[] v = prior.variances(s2, d);
    double[] f = prior.degreesOfFreedom(d);
    for (int k = 0; k < sdOf.length; k++) {
      boolean known = v[k] > 0;
      sdOf[k] = known ? Math.sqrt(v[k]) : sd;
      dfOf[k] = known ? Math.max(3, Math.min(df, f[k])) : df;
    }
  }

  private void medians(Grouping g, boolean[] out) {
    int levels = g.ox.length;
    List<double[]>[] by = lists(levels);
    for (int i = 0; i < n; i++) {
      int k = g.factor.level()[i];
      if (k >= 0 && !out[i]) {
        by[k].add(residual(i, g));
      }
    }
    for (int k = 0; k < levels; k++) {
      int m = by[k].size();
      g.medianOf[k] = m < Apart.ENOUGH ? 0 : m;
      if (m < Apart.ENOUGH) {
        g.ox[k] = 0;
        g.oy[k] = 0;
        continue;
      }
      double[] vx = new double[m];
      double[] vy = new double[m];
      for (int j = 0; j < m; j++) {
        vx[j] = by[k].get(j)[0];
        vy[j] = by[k].get(j)[1];
      }
      g.ox[k] = Order.median(vx, m);
      g.oy[k] = Order.median(vy, m);
    }
  }

  @SuppressWarnings({"unchecked", "rawtypes"})
  private static List<double[]>[] lists(int k) {
    List<double[]>[] l = new List[k];
    for (int i = 0; i < k; i++) {
      l[i] = new ArrayList<>();
    }
    return l;
  }

  /** Robust spread between the levels of each factor. */
  private void spreads(boolean[] out) {
    for (Grouping g : groups) {
      sums(g, out);
      double[] v = new double[2 * g.ox.length];
      int m = 0;
      double noise = 0;
      for (int k = 0; k < g.ox.length; k++) {
        if (g.count[k] > 0) {
          v[m++] = g.sx[k] / g.count[k];
          v[m++] = g.sy[k] / g.count[k];
          noise += 2 * sd * sd / g.count[k];
        }
      }
      double s = m == 0 ? 0 : Order.scale(v, m);
      double between = m == 0 ? 0 : s * s - noise / m;
      // Never so small that an honest offset of a rare type looks like an error.
      g.spread = Math.max(sd, Math.sqrt(Math.max(0, between)));
      for (int k = 0; k < g.tau.length; k++) {
        g.tau[k] = g.medianOf[k] > 0 ? Math.max(g.spread, Math.hypot(g.ox[k], g.oy[k])) : g.spread;
      }
    }
  }

  private void sums(Grouping g, boolean[] out) {
    Arrays.fill(g.sx, 0);
    Arrays.fill(g.sy, 0);
    Arrays.fill(g.count, 0);
    for (int i = 0; i < n; i++) {
      int k = g.factor.level()[i];
      if (k >= 0 && !out[i]) {
        double[] r = residual(i, g);
        g.sx[k] += r[0];
        g.sy[k] += r[1];
        g.count[k]++;
      }
    }
  }

  /** Least squares and shrunken means of the clean rows. */
  void refine(boolean[] out) {
    int[] clean = clean(out);
    for (int round = 0; round < 8; round++) {
      panelMeans(clean);
      for (Grouping g : groups) {
        sums(g, out);
        for (int k = 0; k < g.ox.length; k++) {
          double l = shrink(g, k, g.count[k]);
          g.ox[k] = g.count[k] == 0 ? 0 : l * g.sx[k] / g.count[k];
          g.oy[k] = g.count[k] == 0 ? 0 : l * g.sy[k] / g.count[k];
        }
      }
    }
    int types = sdOf.length;
    double[] ss = new double[types + 1];
    double[] free = new double[types + 1];
    for (int i : clean) {
      double[] r = residual(i, null);
      int k = type(i) < 0 ? types : type(i);
      ss[k] += sq(r[0]) + sq(r[1]);
      free[k] += 2 - (double) columns / clean.length;
    }
    for (Grouping g : groups) {
      sums(g, out);
      // What a level takes of the data is spread over its rows.
      for (int i : clean) {
        int l = g.factor.level()[i];
        if (l >= 0) {
          free[type(i) < 0 ? types : type(i)] -= 2 * shrink(g, l, g.count[l]) / g.count[l];
        }
      }
    }
    double sum = 0;
    double rest = 0;
    for (int k = 0; k <= types; k++) {
      sum += ss[k];
      rest += free[k];
    }
    df = Math.max(3, rest);
    sd = Math.max(1e-6, Math.sqrt(sum / df));
    double[] s2 = new double[types];
    for (int k = 0; k < types; k++) {
      free[k] = free[k] < 0.5 ? 0 : free[k];
      s2[k] = free[k] == 0 ? 0 : Math.max(1e-12, ss[k] / free[k]);
    }
    moderate(s2, Arrays.copyOf(free, types));
  }

  /** Share of a level's mean over {@code count} rows that is believed. */
  private double shrink(Grouping g, int level, int count) {
    if (count == 0) {
      return 0;
    }
    double s = g.factor == part ? sdOf[level] : sd;
    return sq(g.tau[level]) / (sq(g.tau[level]) + sq(s) / count);
  }

  private void panelMeans(int[] clean) {
    double[][] a = new double[columns][columns];
    double[] b = new double[columns];
    double[] row = new double[columns];
    for (int i : clean) {
      double[] r = offsetsOff(i);
      double w = sq(sd / sd(i));
      for (int e = 0; e < 2; e++) {
        fill(i, e, row);
        for (int j = 0; j < columns; j++) {
          if (row[j] != 0) {
            for (int k = 0; k <= j; k++) {
              a[j][k] += w * row[k] * row[j];
            }
            b[j] += w * row[j] * r[e];
          }
        }
      }
    }
    for (int j = 0; j < columns; j++) {
      // A whisper of ridge keeps in-line placements solvable; it moves nothing else.
      a[j][j] = a[j][j] * (1 + 1e-12) + 1e-9;
    }
    beta = new Cholesky(a, 0).solve(b);
  }

  /** Standard deviation per axis of a row's deletion residual, mm. */
  double rowSd(int i, boolean isOut) {
    double v = sq(sd(i));
    for (Grouping g : groups) {
      int k = g.factor.level()[i];
      if (k >= 0) {
        int rest = Math.max(0, g.count[k] - (isOut ? 0 : 1));
        v += sq(g.tau[k]) * (1 - shrink(g, k, rest));
      }
    }
    return Math.sqrt(v);
  }

  /** Deletion residual of a row, mm, panel frame: what it shows minus what the others expect. */
  double[] deletion(int i, boolean isOut) {
    double rx = t.dx()[i] - panelX(i);
    double ry = t.dy()[i] - panelY(i);
    for (Grouping g : groups) {
      int k = g.factor.level()[i];
      if (k < 0) {
        continue;
      }
      double sx = g.sx[k];
      double sy = g.sy[k];
      int count = g.count[k];
      if (!isOut) {
        double[] own = residual(i, g);
        sx -= own[0];
        sy -= own[1];
        count--;
      }
      if (count <= 0) {
        continue;
      }
      double l = shrink(g, k, count) / count;
      double ox = l * sx;
      double oy = l * sy;
      rx -= g.partFrame ? cos[i] * ox - sin[i] * oy : ox;
      ry -= g.partFrame ? sin[i] * ox + cos[i] * oy : oy;
    }
    return new double[] {rx, ry};
  }

  /** Squared standardised deletion residual. */
  double distance2(int i, boolean isOut) {
    double[] r = deletion(i, isOut);
    double s = rowSd(i, isOut);
    return (sq(r[0]) + sq(r[1])) / (s * s);
  }

  /** Squared standardised residual of a row against the medians of the start. */
  double startDistance2(int i) {
    double[] r = residual(i, null);
    double v = sq(sd(i));
    for (Grouping g : groups) {
      int k = g.factor.level()[i];
      if (k >= 0) {
        v += g.medianOf[k] > 0 ? MEDIAN_VARIANCE * sq(sd(i)) / g.medianOf[k] : sq(g.spread);
      }
    }
    return (sq(r[0]) + sq(r[1])) / v;
  }

  /** Levels of which three clean rows and more stand apart from the other levels. */
  List<Apart> apart(double falseAlarm) {
    List<Apart> apart = new ArrayList<>();
    for (Grouping g : groups) {
      int levels = 0;
      for (int c : g.count) {
        levels += c > 0 ? 1 : 0;
      }
      if (levels < 3) {
        continue;
      }
      // The spread between levels is a robust one over the levels, two components each.
      double limit =
          2
              * new FDistribution(null, 2, Math.max(2, MAD_EFFICIENCY * 2 * (levels - 1)))
                  .inverseCumulativeProbability(1 - falseAlarm / levels);
      for (int k = 0; k < g.ox.length; k++) {
        double s2 = sq(g.spread) + sq(g.factor == part ? sdOf[k] : sd) / Math.max(1, g.count[k]);
        if (g.count[k] >= Apart.ENOUGH && (sq(g.ox[k]) + sq(g.oy[k])) / s2 > limit) {
          apart.add(
              new Apart(
                  g.factor.factor(),
                  g.factor.levels().get(k),
                  g.count[k],
                  true,
                  false,
                  g.ox[k],
                  g.oy[k],
                  Double.NaN));
        }
      }
    }
    return apart;
  }
}
