package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.mixed.PositionColumns.FactorUse;
import org.padtrue.mixed.reml.CrossProducts;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.TermFamily;

/**
 * Terms that the placements measured cannot tell apart.
 *
 * <p>The columns of panel terms, common offset and all levels are swept one after another; a column
 * that the earlier ones reproduce is an alias, and the coefficients say of which terms. The
 * direction that the levels of a factor share is 'common' (or 'shift' for a panel-frame factor) by
 * definition: each factor's levels are held to sum to zero, so that this is no alias on every job.
 */
public final class AliasFinder {
  private static final double TOL = 1e-9;
  private static final int MAX_COLUMNS = 700;

  private AliasFinder() {}

  /**
   * Looks for aliases among panel terms and the levels of the factors.
   *
   * @param table what was measured
   * @param family panel transform in use
   * @param array array terms in use
   * @param factors the factors
   * @param panelFrame factors that act in the panel frame
   * @return groups of term names such as "part R0603 x", "shift x"; the dependent term first
   */
  public static List<List<String>> find(
      DeviationTable table,
      PanelFamily family,
      boolean array,
      List<Factor> factors,
      java.util.Set<Factor> panelFrame) {
    List<FactorUse> uses = new ArrayList<>();
    for (Factor f : factors) {
      LevelColumn g = table.factors().get(f);
      if (g != null && g.levels().size() > 1) {
        uses.add(new FactorUse(g, !panelFrame.contains(f)));
      }
    }
    PositionColumns cols = new PositionColumns(table, uses);
    if (cols.random > MAX_COLUMNS) {
      return List.of();
    }
    CrossProducts full = cols.accumulate(RowWeights.EQUAL);
    Terms terms = new Terms(family, array, true, false);
    FamilyMap map = FamilyMap.at(cols, terms, array, array, FamilyMap.Shape.none(cols.panels));
    CrossProducts cp = full.map(map.c(), map.offset());
    int p = cp.fixed();
    int k = p + cols.random;
    double[][] m = new double[k][k];
    for (int i = 0; i < p; i++) {
      for (int j = 0; j < p; j++) {
        m[i][j] = cp.ff(i, j);
      }
      for (int j = 0; j < cols.random; j++) {
        m[i][p + j] = cp.fz[j][i];
        m[p + j][i] = cp.fz[j][i];
      }
    }
    for (int i = 0; i < cols.random; i++) {
      System.arraycopy(cp.zz[i], 0, m[p + i], p, cols.random);
    }
    for (int i = 0; i < cols.random; i++) {
      for (int j = 0; j < cols.random; j++) {
        if (cols.thetaOf[i] == cols.thetaOf[j]) {
          m[p + i][p + j] += 1;
        }
      }
    }
    return sweep(m, names(cols, map));
  }

  private static List<String> names(PositionColumns cols, FamilyMap map) {
    FamilyMap.Layout l = map.layout();
    String[] n = new String[l.size()];
    Arrays.fill(n, "");
    List<String> panels = cols.table.panels();
    for (int p = 0; p < cols.panels; p++) {
      String of = cols.panels == 1 ? "" : " of " + panels.get(p);
      n[2 * p] = FixedTerm.SHIFT_X.label() + of;
      n[2 * p + 1] = FixedTerm.SHIFT_Y.label() + of;
      if (l.rotation() >= 0) {
        n[l.rotation() + p] = FixedTerm.ROTATION.label() + of;
      }
    }
    if (l.scale() >= 0) {
      if (map.terms().family() == PanelFamily.SIMILARITY) {
        n[l.scale()] = TermFamily.SCALE.key();
      } else {
        n[l.scale()] = FixedTerm.SCALE_X.label();
        n[l.scale() + 1] = FixedTerm.SCALE_Y.label();
        n[l.scale() + 2] = FixedTerm.SQUARENESS.label();
      }
    }
    pair(n, l.column(), TermFamily.ARRAY.key() + " column");
    pair(n, l.row(), TermFamily.ARRAY.key() + " row");
    pair(n, l.common(), TermFamily.COMMON.key());
    List<String> all = new ArrayList<>(Arrays.asList(n));
    for (FactorUse u : cols.factors) {
      for (String level : u.levels()) {
        all.add(new Level(u.factor(), level) + " x");
        all.add(new Level(u.factor(), level) + " y");
      }
    }
    return all;
  }

  private static void pair(String[] n, int at, String name) {
    if (at >= 0) {
      n[at] = name + " x";
      n[at + 1] = name + " y";
    }
  }

  /** Gauss-Jordan in the order of the columns. */
  private static List<List<String>> sweep(double[][] m, List<String> names) {
    int k = m.length;
    double[] scale = new double[k];
    boolean[] in = new boolean[k];
    for (int i = 0; i < k; i++) {
      scale[i] = m[i][i];
    }
    List<List<String>> out = new ArrayList<>();
    for (int j = 0; j < k; j++) {
      if (scale[j] == 0) {
        continue;
      }
      if (m[j][j] <= TOL * scale[j]) {
        List<String> terms = new ArrayList<>();
        terms.add(names.get(j));
        for (int i = 0; i < j; i++) {
          double share = Math.abs(m[i][j]) * Math.sqrt(scale[i] / scale[j]);
          if (in[i] && share > 1e-5) {
            terms.add(names.get(i));
          }
        }
        out.add(terms);
        continue;
      }
      in[j] = true;
      double d = m[j][j];
      for (int c = 0; c < k; c++) {
        m[j][c] /= d;
      }
      for (int i = 0; i < k; i++) {
        double f = m[i][j];
        if (i != j && f != 0) {
          for (int c = j + 1; c < k; c++) {
            m[i][c] -= f * m[j][c];
          }
          m[i][j] = 0;
        }
      }
    }
    return out;
  }
}
