package org.padtrue.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.DeviationTable;
import org.padtrue.panel.Factor;

/**
 * Panel transform plus level offsets, first by medians, then by shrunken means of the clean rows;
 * serves deletion residuals.
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
  private double sd;
  private double df;

  /** One factor with its level offsets. */
  private static final class Grouping {
    final Factor factor;
    final boolean partFrame;
    final double[] ox;
    final double[] oy;
    final double[] sx;
    final double[] sy;
    final int[] count;
    double tau;

    Grouping(Factor factor, boolean partFrame) {
      this.factor = factor;
      this.partFrame = partFrame;
      int k = factor.levels().size();
      ox = new double[k];
      oy = new double[k];
      sx = new double[k];
      sy = new double[k];
      count = new int[k];
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
    for (String name : new String[] {"part", "nozzle", "feeder", "head", "board"}) {
      Factor f = t.factors().get(name);
      if (f != null && f.levels().size() > 1) {
        groups.add(new Grouping(f, !name.equals("head") && !name.equals("board")));
      }
    }
  }

  private static double sq(double v) {
    return v * v;
  }

  double sd() {
    return sd;
  }

  double degreesOfFreedom() {
    return df;
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

  /** Expected deviation of a row, mm, panel frame. */
  double[] expected(int i) {
    double ex = panelX(i);
    double ey = panelY(i);
    for (Grouping g : groups) {
      ex += levelX(g, i);
      ey += levelY(g, i);
    }
    return new double[] {ex, ey};
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

  private void trimmedPanel(boolean[] out) {
    int[] clean = clean(out);
    int m = clean.length;
    int h = Math.max((columns + 1) / 2, (int) Math.ceil(0.75 * m));
    if (m < (columns + 1) / 2) {
      return;
    }
    double[][] r = new double[m][];
    for (int k = 0; k < m; k++) {
      r[k] = offsetsOff(clean[k]);
    }
    beta =
        TrimmedFit.fit(
                new TrimmedFit.Cases() {
                  @Override
                  public int size() {
                    return m;
                  }

                  @Override
                  public int columns() {
                    return columns;
                  }

                  @Override
                  public int equations() {
                    return 2;
                  }

                  @Override
                  public double row(int k, int equation, double[] into) {
                    fill(clean[k], equation, into);
                    return r[k][equation];
                  }
                },
                Math.min(h, m))
            .coefficients();
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

  /** Trimmed panel fit and medians by level, three rounds. */
  void start(boolean[] out) {
    int used = 0;
    for (int round = 0; round < 3; round++) {
      trimmedPanel(out);
      used = columns;
      for (Grouping g : groups) {
        used += medians(g, out);
      }
    }
    int[] clean = clean(out);
    double[] comp = new double[2 * clean.length];
    for (int k = 0; k < clean.length; k++) {
      double[] r = residual(clean[k], null);
      comp[2 * k] = r[0];
      comp[2 * k + 1] = r[1];
    }
    double full = Math.max(2, comp.length - used);
    sd = Order.scale(comp, comp.length) * Math.sqrt(comp.length / full);
    sd = Math.max(sd, 1e-6);
    // The median absolute deviation has 37 % of the efficiency of a standard deviation.
    df = Math.max(3, 0.37 * full);
    spreads(out);
  }

  private int medians(Grouping g, boolean[] out) {
    int levels = g.ox.length;
    List<double[]>[] by = lists(levels);
    for (int i = 0; i < n; i++) {
      int k = g.factor.level()[i];
      if (k >= 0 && !out[i]) {
        by[k].add(residual(i, g));
      }
    }
    int used = 0;
    for (int k = 0; k < levels; k++) {
      int m = by[k].size();
      if (m < 3) {
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
      used += 2;
    }
    return used;
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
      g.tau = Math.max(sd, Math.sqrt(Math.max(0, between)));
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
          double l = shrink(g, g.count[k]);
          g.ox[k] = g.count[k] == 0 ? 0 : l * g.sx[k] / g.count[k];
          g.oy[k] = g.count[k] == 0 ? 0 : l * g.sy[k] / g.count[k];
        }
      }
    }
    double ss = 0;
    for (int i : clean) {
      double[] r = residual(i, null);
      ss += sq(r[0]) + sq(r[1]);
    }
    double used = columns;
    for (Grouping g : groups) {
      sums(g, out);
      for (int c : g.count) {
        used += c == 0 ? 0 : 2 * shrink(g, c);
      }
    }
    df = Math.max(3, 2.0 * clean.length - used);
    sd = Math.max(1e-6, Math.sqrt(ss / df));
  }

  private double shrink(Grouping g, int count) {
    return count == 0 ? 0 : sq(g.tau) / (sq(g.tau) + sq(sd) / count);
  }

  private void panelMeans(int[] clean) {
    double[][] a = new double[columns][columns];
    double[] b = new double[columns];
    double[] row = new double[columns];
    for (int i : clean) {
      double[] r = offsetsOff(i);
      for (int e = 0; e < 2; e++) {
        fill(i, e, row);
        for (int j = 0; j < columns; j++) {
          if (row[j] != 0) {
            for (int k = 0; k < columns; k++) {
              a[j][k] += row[j] * row[k];
            }
            b[j] += row[j] * r[e];
          }
        }
      }
    }
    for (int j = 0; j < columns; j++) {
      // A whisper of ridge keeps in-line placements solvable; it moves nothing else.
      a[j][j] = a[j][j] * (1 + 1e-12) + 1e-9;
    }
    beta =
        new org.apache.commons.math3.linear.CholeskyDecomposition(
                new org.apache.commons.math3.linear.Array2DRowRealMatrix(a, false), 1e-6, 1e-14)
            .getSolver()
            .solve(new org.apache.commons.math3.linear.ArrayRealVector(b, false))
            .toArray();
  }

  /** Standard deviation per axis of a row's deletion residual, mm. */
  double rowSd(int i, boolean isOut) {
    double v = sq(sd);
    for (Grouping g : groups) {
      int k = g.factor.level()[i];
      if (k >= 0) {
        int rest = g.count[k] - (isOut ? 0 : 1);
        v += sq(g.tau) * (1 - shrink(g, Math.max(0, rest)));
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
      double l = shrink(g, count) / count;
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
}
