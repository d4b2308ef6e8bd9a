package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.reml.CrossProducts;
import org.padtrue.mixed.reml.Estimation;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.RandomEffectsFit;
import org.padtrue.mixed.reml.VarianceUncertainty;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * The model of rotations: one common rotation zero and random offsets by factor, REML.
 *
 * <p>Response: rotation deviation minus the panel's rotation, wrapped by the caller modulo
 * symmetry.
 */
public final class RotationModel {
  private RotationModel() {}

  /**
   * Fits.
   *
   * @param table the placements
   * @param response degrees, one per row; NaN not measured
   * @param factors factors to use, where the table has them
   * @param equalScatter one scatter variance for all part types
   * @param free levels that are not held to the others of their factor, as part type R0603
   * @return the fit, or null when no rotation was measured
   */
  public static @Nullable RotationFit fit(
      DeviationTable table,
      double[] response,
      List<Factor> factors,
      boolean equalScatter,
      Set<Level> free) {
    int n = 0;
    for (double r : response) {
      n += Double.isNaN(r) ? 0 : 1;
    }
    if (n == 0) {
      return null;
    }
    List<LevelColumn> use = new ArrayList<>();
    for (Factor name : factors) {
      LevelColumn f = table.factors().get(name);
      int seen = f == null ? 0 : levelsSeen(f, response);
      if (f != null && seen > 1 && seen < n && !twin(use, f, response)) {
        use.add(f);
      }
    }
    int[] base = new int[use.size()];
    int q = 0;
    for (int f = 0; f < base.length; f++) {
      base[f] = q;
      q += use.get(f).levels().size();
    }
    int[] block = new int[q];
    for (int f = 0; f < base.length; f++) {
      int end = f + 1 < base.length ? base[f + 1] : q;
      java.util.Arrays.fill(block, base[f], end, f);
    }
    int[] theta = block.clone();
    for (int f = 0; f < base.length; f++) {
      for (int l = 0; l < use.get(f).levels().size(); l++) {
        if (free.contains(use.get(f).named(l))) {
          theta[base[f] + l] = base.length;
        }
      }
    }
    double mean = 0;
    for (double r : response) {
      mean += Double.isNaN(r) ? 0 : r / n;
    }
    Build build = new Build(table, response, use, base, q, mean);
    RotationWeights weigher = new RotationWeights(build, theta, block);
    weigher.run(equalScatter);
    RandomEffects model = weigher.model();
    RandomEffectsFit fit = model.fit(Estimation.REML);
    int[][] sums = new int[q][];
    for (int j = 0; j < q; j++) {
      sums[j] = new int[] {j, q};
    }
    VarianceUncertainty u = VarianceUncertainty.of(model, fit, sums);
    double measuring = measuring(table, response, n);
    return new RotationFit(
        use, base, mean, model, fit, u, measuring, weigher.scatter(fit, measuring));
  }

  private static double measuring(DeviationTable t, double[] response, int n) {
    double s = 0;
    for (int i = 0; i < response.length; i++) {
      if (!Double.isNaN(response[i])) {
        s += t.ur()[i] * t.ur()[i] / n;
      }
    }
    return Math.sqrt(s);
  }

  private static int levelsSeen(LevelColumn f, double[] response) {
    boolean[] seen = new boolean[f.levels().size()];
    int c = 0;
    for (int i = 0; i < response.length; i++) {
      int l = f.level()[i];
      if (l >= 0 && !Double.isNaN(response[i]) && !seen[l]) {
        seen[l] = true;
        c++;
      }
    }
    return c;
  }

  private static boolean twin(List<LevelColumn> use, LevelColumn f, double[] response) {
    for (LevelColumn g : use) {
      int[] map = new int[g.levels().size()];
      int[] back = new int[f.levels().size()];
      java.util.Arrays.fill(map, -1);
      java.util.Arrays.fill(back, -1);
      boolean same = true;
      for (int i = 0; i < response.length && same; i++) {
        int a = g.level()[i];
        int b = f.level()[i];
        if (Double.isNaN(response[i])) {
          continue;
        }
        if (a < 0 || b < 0) {
          same = a < 0 && b < 0;
          continue;
        }
        if (map[a] < 0 && back[b] < 0) {
          map[a] = b;
          back[b] = a;
        }
        same = map[a] == b && back[b] == a;
      }
      if (same) {
        return true;
      }
    }
    return false;
  }

  /** The model's columns, row by row. */
  record Build(
      DeviationTable table,
      double[] response,
      List<LevelColumn> use,
      int[] base,
      int random,
      double mean) {
    CrossProducts products(double[] weight) {
      CrossProducts cp = new CrossProducts(1, random);
      int[] fi = {0};
      double[] fv = {1};
      int[] zi = new int[base.length];
      double[] zv = new double[base.length];
      java.util.Arrays.fill(zv, 1);
      for (int i = 0; i < response.length; i++) {
        if (Double.isNaN(response[i])) {
          continue;
        }
        int z = 0;
        for (int f = 0; f < base.length; f++) {
          int l = use.get(f).level()[i];
          if (l >= 0) {
            zi[z++] = base[f] + l;
          }
        }
        cp.add(fi, fv, 1, zi, zv, z, response[i] - mean, weight.length == 0 ? 1 : weight[i]);
      }
      return cp;
    }
  }
}
