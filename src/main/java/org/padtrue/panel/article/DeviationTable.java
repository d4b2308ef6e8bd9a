package org.padtrue.panel.article;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Measured placements as columns, one row per placement, so that a fit runs through flat arrays.
 *
 * <p>Arrays are not copied; treat them as read-only. Lengths mm, angles degrees, panel frame.
 */
public final class DeviationTable {
  private final List<Measured> rows;
  private final List<String> panels;
  private final int[] panel;
  private final double[] x;
  private final double[] y;
  private final double[] theta;
  private final double[] dx;
  private final double[] dy;
  private final double[] dr;
  private final double[] u;
  private final double[] ur;
  private final double[] order;
  private final int[] column;
  private final int[] row;
  private final Map<Factor, LevelColumn> factors;

  /**
   * Lays measured placements out as columns.
   *
   * @param rows measured placements of one panel or several
   * @param uMm standard uncertainty of a coordinate where a row states none, mm; NaN unknown
   * @param uRotationDeg the same for rotation, degrees
   */
  public DeviationTable(List<Measured> rows, double uMm, double uRotationDeg) {
    this.rows = List.copyOf(rows);
    int n = rows.size();
    panel = new int[n];
    x = new double[n];
    y = new double[n];
    theta = new double[n];
    dx = new double[n];
    dy = new double[n];
    dr = new double[n];
    u = new double[n];
    ur = new double[n];
    order = new double[n];
    column = new int[n];
    row = new int[n];
    Map<String, Integer> panelIndex = new LinkedHashMap<>();
    for (int i = 0; i < n; i++) {
      Measured m = rows.get(i);
      panel[i] = panelIndex.computeIfAbsent(m.panel(), k -> panelIndex.size());
      x[i] = m.nominal().xMm();
      y[i] = m.nominal().yMm();
      theta[i] = m.nominal().rotationDeg();
      dx[i] = m.dxMm();
      dy[i] = m.dyMm();
      dr[i] = m.dRotationDeg();
      u[i] = Double.isNaN(m.uMm()) ? uMm : m.uMm();
      ur[i] = Double.isNaN(m.uRotationDeg()) ? uRotationDeg : m.uRotationDeg();
      order[i] = m.order();
      column[i] = m.board().column();
      row[i] = m.board().row();
    }
    panels = List.copyOf(panelIndex.keySet());
    factors = new EnumMap<>(Factor.class);
    for (Factor f : Factor.values()) {
      put(f);
    }
  }

  private void put(Factor factor) {
    Map<String, Integer> index = new HashMap<>();
    List<String> levels = new ArrayList<>();
    int[] level = new int[rows.size()];
    for (int i = 0; i < level.length; i++) {
      String k = factor.level(rows.get(i));
      if (k == null || k.isEmpty()) {
        level[i] = -1;
        continue;
      }
      Integer l = index.get(k);
      if (l == null) {
        l = levels.size();
        index.put(k, l);
        levels.add(k);
      }
      level[i] = l;
    }
    if (!levels.isEmpty()) {
      factors.put(factor, new LevelColumn(factor, levels, level));
    }
  }

  /** A table of some of the rows, factors rebuilt. */
  public DeviationTable subset(java.util.function.IntPredicate keep) {
    List<Measured> kept = new ArrayList<>();
    List<Integer> from = new ArrayList<>();
    for (int i = 0; i < size(); i++) {
      if (keep.test(i)) {
        kept.add(rows.get(i));
        from.add(i);
      }
    }
    DeviationTable t = new DeviationTable(kept, Double.NaN, Double.NaN);
    for (int i = 0; i < kept.size(); i++) {
      t.u[i] = u[from.get(i)];
      t.ur[i] = ur[from.get(i)];
    }
    return t;
  }

  /** Number of rows. */
  public int size() {
    return panel.length;
  }

  /** The measured placement of each row. */
  public List<Measured> rows() {
    return rows;
  }

  /** Panel names, in order of first appearance. */
  public List<String> panels() {
    return panels;
  }

  /** Index into {@link #panels()} for each row. */
  public int[] panel() {
    return panel;
  }

  /** Nominal x, mm. */
  public double[] x() {
    return x;
  }

  /** Nominal y, mm. */
  public double[] y() {
    return y;
  }

  /** Nominal rotation in the panel frame, degrees. */
  public double[] theta() {
    return theta;
  }

  /** Deviation along x, mm. */
  public double[] dx() {
    return dx;
  }

  /** Deviation along y, mm. */
  public double[] dy() {
    return dy;
  }

  /** Deviation in rotation, degrees; NaN not measured. */
  public double[] dr() {
    return dr;
  }

  /** Standard uncertainty of dx and dy, mm; NaN unknown. */
  public double[] u() {
    return u;
  }

  /** Standard uncertainty of the rotation, degrees; NaN unknown. */
  public double[] ur() {
    return ur;
  }

  /** Placing order; NaN not given. */
  public double[] order() {
    return order;
  }

  /** Board column, 1-based. */
  public int[] column() {
    return column;
  }

  /** Board row, 1-based. */
  public int[] row() {
    return row;
  }

  /** Level of each row by factor, where the files name levels; in the order of factors. */
  public Map<Factor, LevelColumn> factors() {
    return factors;
  }

  /** Cosine of the nominal rotation of each row, exact at quarter turns. */
  public double[] cosTheta() {
    double[] c = new double[size()];
    for (int i = 0; i < c.length; i++) {
      c[i] = Angles.cosDeg(theta[i]);
    }
    return c;
  }

  /** Sine of the nominal rotation of each row, exact at quarter turns. */
  public double[] sinTheta() {
    double[] s = new double[size()];
    for (int i = 0; i < s.length; i++) {
      s[i] = Angles.sinDeg(theta[i]);
    }
    return s;
  }
}
