package org.padtrue.mixed;

import java.util.List;
import java.util.Set;
import org.padtrue.mixed.reml.CrossProducts;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;

/**
 * Columns of the model of positions, two rows (dx, dy) per placement.
 *
 * <p>Fixed columns in full: for each panel shift x, y and the four entries of a linear part; then
 * steps per board column and row; the common part-frame offset; settling. Every family is a linear
 * map of these. Coordinates are centred at the mean of what was measured and scaled by its radius.
 */
final class PositionColumns {
  static final int PER_PANEL = 6;

  final DeviationTable table;
  final List<FactorUse> factors;
  final Set<Level> free;
  final int panels;
  final int arrayAt;
  final int commonAt;
  final int settlingAt;
  final int fixed;
  final int random;
  final int[] baseOf;
  final int[] thetaOf;
  final int[] blockOf;
  final double centreX;
  final double centreY;
  final double radius;
  final double meanDx;
  final double meanDy;
  final int parameters;
  private final double orderMean;
  private final double orderScale;

  /** A factor and the frame it acts in. */
  record FactorUse(LevelColumn column, boolean partFrame) {
    Factor factor() {
      return column.factor();
    }

    List<String> levels() {
      return column.levels();
    }
  }

  /** Name of a factor's component: the factor, and its frame where it acts in both. */
  String source(int f) {
    Factor factor = factors.get(f).factor();
    for (int g = 0; g < f; g++) {
      if (factors.get(g).factor() == factor) {
        OffsetFrame frame = factors.get(f).partFrame() ? OffsetFrame.PART : OffsetFrame.PANEL;
        return factor.key() + " in the " + frame.key() + " frame";
      }
    }
    return factor.key();
  }

  PositionColumns(DeviationTable table, List<FactorUse> factors) {
    this(table, factors, Set.of(), false);
  }

  /**
   * Columns.
   *
   * @param free levels that are not held to the others, as part type R0603
   * @param axesApart true when x and y weigh differently: then the two axes of a level are not
   *     orthogonal and make blocks of their own
   */
  PositionColumns(
      DeviationTable table, List<FactorUse> factors, Set<Level> free, boolean axesApart) {
    this.table = table;
    this.factors = List.copyOf(factors);
    this.free = Set.copyOf(free);
    panels = table.panels().size();
    arrayAt = PER_PANEL * panels;
    commonAt = arrayAt + 4;
    settlingAt = commonAt + 2;
    fixed = settlingAt + 2;
    baseOf = new int[factors.size()];
    int q = 0;
    for (int f = 0; f < factors.size(); f++) {
      baseOf[f] = q;
      q += 2 * factors.get(f).levels().size();
    }
    random = q;
    thetaOf = new int[q];
    blockOf = new int[q];
    parameters = 2 * factors.size();
    for (int f = 0; f < factors.size(); f++) {
      int end = f + 1 < factors.size() ? baseOf[f + 1] : q;
      LevelColumn column = factors.get(f).column();
      // Where a factor acts in both frames, the first component takes what stands apart.
      boolean first = f == 0 || factors.get(f - 1).factor() != column.factor();
      for (int j = baseOf[f]; j < end; j++) {
        int axis = (j - baseOf[f]) % 2;
        boolean apart = first && free.contains(column.named((j - baseOf[f]) / 2));
        thetaOf[j] = apart ? parameters : 2 * f + axis;
        blockOf[j] = axesApart ? 2 * f + axis : f;
      }
    }
    int n = table.size();
    centreX = mean(table.x());
    centreY = mean(table.y());
    double s = 0;
    for (int i = 0; i < n; i++) {
      double px = table.x()[i] - centreX;
      double py = table.y()[i] - centreY;
      s += (px * px + py * py) / n;
    }
    radius = s > 0 ? Math.sqrt(s) : 1;
    meanDx = mean(table.dx());
    meanDy = mean(table.dy());
    double om = 0;
    double os = 0;
    int on = 0;
    for (double o : table.order()) {
      if (!Double.isNaN(o)) {
        on++;
        double d = o - om;
        om += d / on;
        os += d * (o - om);
      }
    }
    orderMean = om;
    orderScale = on > 1 && os > 0 ? Math.sqrt(os / on) : 1;
  }

  private static double mean(double[] v) {
    double s = 0;
    for (double a : v) {
      s += a;
    }
    return v.length == 0 ? 0 : s / v.length;
  }

  /** True when every row has an order and the orders differ. */
  boolean hasOrder() {
    for (double o : table.order()) {
      if (Double.isNaN(o)) {
        return false;
      }
    }
    return table.size() > 2 && orderScale > 0 && orderSpread();
  }

  private boolean orderSpread() {
    for (double o : table.order()) {
      if (o != table.order()[0]) {
        return true;
      }
    }
    return false;
  }

  /** Order of a row, centred and scaled; 0 when not given. */
  double order(int i) {
    double o = table.order()[i];
    return Double.isNaN(o) ? 0 : (o - orderMean) / orderScale;
  }

  double orderScale() {
    return orderScale;
  }

  /** Told every row of the model: two per placement. */
  @FunctionalInterface
  interface Rows {
    /**
     * A row.
     *
     * @param i placement
     * @param axis 0 for dx, 1 for dy
     * @param fi indices of the non-zero fixed columns in full, ascending
     * @param fv their values
     * @param nf how many
     * @param zi indices of the non-zero random columns
     * @param zv their values
     * @param nz how many
     * @param y response, mm
     */
    void row(
        int i, int axis, int[] fi, double[] fv, int nf, int[] zi, double[] zv, int nz, double y);
  }

  /**
   * One pass over the placements.
   *
   * @param weight weights of the rows
   */
  CrossProducts accumulate(RowWeights weight) {
    CrossProducts cp = new CrossProducts(fixed, random);
    forEachRow(
        (i, e, fi, fv, nf, zi, zv, nz, y) -> cp.add(fi, fv, nf, zi, zv, nz, y, weight.of(i, e)));
    return cp;
  }

  void forEachRow(Rows rows) {
    int n = table.size();
    int nf = factors.size();
    double[] cos = table.cosTheta();
    double[] sin = table.sinTheta();
    int[] fi = new int[12];
    double[] fv = new double[12];
    int[] zi = new int[2 * nf];
    double[] zv = new double[2 * nf];
    boolean order = hasOrder();
    for (int i = 0; i < n; i++) {
      double px = (table.x()[i] - centreX) / radius;
      double py = (table.y()[i] - centreY) / radius;
      int base = PER_PANEL * table.panel()[i];
      int col = table.column()[i] - 1;
      int row = table.row()[i] - 1;
      double o = order ? order(i) : 0;
      for (int e = 0; e < 2; e++) {
        int k = 0;
        fi[k] = base + e;
        fv[k++] = 1;
        fi[k] = base + 2 + 2 * e;
        fv[k++] = px;
        fi[k] = base + 3 + 2 * e;
        fv[k++] = py;
        if (col != 0) {
          fi[k] = arrayAt + e;
          fv[k++] = col;
        }
        if (row != 0) {
          fi[k] = arrayAt + 2 + e;
          fv[k++] = row;
        }
        fi[k] = commonAt;
        fv[k++] = e == 0 ? cos[i] : sin[i];
        fi[k] = commonAt + 1;
        fv[k++] = e == 0 ? -sin[i] : cos[i];
        if (order) {
          fi[k] = settlingAt + e;
          fv[k++] = o;
        }
        int z = 0;
        for (int f = 0; f < nf; f++) {
          int level = factors.get(f).column().level()[i];
          if (level < 0) {
            continue;
          }
          int j = baseOf[f] + 2 * level;
          if (factors.get(f).partFrame()) {
            zi[z] = j;
            zv[z++] = e == 0 ? cos[i] : sin[i];
            zi[z] = j + 1;
            zv[z++] = e == 0 ? -sin[i] : cos[i];
          } else {
            zi[z] = j + e;
            zv[z++] = 1;
          }
        }
        double y = e == 0 ? table.dx()[i] - meanDx : table.dy()[i] - meanDy;
        rows.row(i, e, fi, fv, k, zi, zv, z, y);
      }
    }
  }
}
