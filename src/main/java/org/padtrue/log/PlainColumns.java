package org.padtrue.log;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * Columns of the plain model of positions: per panel a shift and a rotation; shared scale x, scale
 * y and shear; per level of each factor two, in the part frame, or in the panel frame for heads.
 *
 * <p>A factor comes in full (every level its own offset) or so that its levels sum to zero, where
 * another term carries what they share.
 */
final class PlainColumns {
  /** Panel transforms, richest first. */
  enum Family {
    AFFINE,
    RIGID,
    SHIFT
  }

  /** A factor and how it comes in. */
  record Block(LevelColumn factor, boolean sumToZero, boolean panelFrame, int rarest) {
    static Block of(LevelColumn f, boolean sumToZero, boolean panelFrame) {
      int[] count = new int[f.levels().size()];
      for (int l : f.level()) {
        if (l >= 0) {
          count[l]++;
        }
      }
      int rarest = 0;
      for (int l = 1; l < count.length; l++) {
        rarest = count[l] < count[rarest] ? l : rarest;
      }
      return new Block(f, sumToZero, panelFrame, rarest);
    }

    /** Levels that have a column of their own. */
    int free() {
      return factor.levels().size() - (sumToZero ? 1 : 0);
    }

    /** Column number of a level within the block; -1 for the one that is minus the others' sum. */
    int column(int level) {
      if (!sumToZero) {
        return level;
      }
      return level == rarest ? -1 : level < rarest ? level : level - 1;
    }
  }

  final Family family;
  final List<Block> blocks;
  final int panels;
  private final DeviationTable t;
  private final double[] cos;
  private final double[] sin;
  final double centreX;
  final double centreY;
  final double half;
  private final int[] first;
  final int count;

  PlainColumns(DeviationTable t, Family family, List<Block> blocks) {
    this.t = t;
    this.family = family;
    this.blocks = List.copyOf(blocks);
    this.panels = t.panels().size();
    cos = t.cosTheta();
    sin = t.sinTheta();
    centreX = mean(t.x());
    centreY = mean(t.y());
    double h = 0;
    for (int i = 0; i < t.size(); i++) {
      h = Math.max(h, Math.max(Math.abs(t.x()[i] - centreX), Math.abs(t.y()[i] - centreY)));
    }
    half = h > 0 ? h : 1;
    first = new int[blocks.size()];
    int c = linear() + (family == Family.AFFINE ? 3 : 0);
    for (int b = 0; b < first.length; b++) {
      first[b] = c;
      c += 2 * blocks.get(b).free();
    }
    count = c;
  }

  private static double mean(double[] v) {
    double s = 0;
    for (double d : v) {
      s += d;
    }
    return v.length == 0 ? 0 : s / v.length;
  }

  int shift(int panel, int axis) {
    return 2 * panel + axis;
  }

  int rotation(int panel) {
    return 2 * panels + panel;
  }

  /** Index of scale x; scale y and shear follow. */
  int linear() {
    return family == Family.SHIFT ? 2 * panels : 3 * panels;
  }

  /** Column of a level of a block on an axis of its frame. */
  int level(int block, int free, int axis) {
    return first[block] + 2 * free + axis;
  }

  /** Most columns that are not zero in a row. */
  int widest() {
    int w = 4;
    for (Block b : blocks) {
      w += 2 * Math.max(1, b.free());
    }
    return w;
  }

  /**
   * One row of the design.
   *
   * @param i row of the table
   * @param axis 0 for dx, 1 for dy
   * @return how many entries were written
   */
  int row(int i, int axis, int[] index, double[] value) {
    int n = 0;
    int p = t.panel()[i];
    double x = (t.x()[i] - centreX) / half;
    double y = (t.y()[i] - centreY) / half;
    index[n] = shift(p, axis);
    value[n++] = 1;
    if (family != Family.SHIFT) {
      index[n] = rotation(p);
      value[n++] = axis == 0 ? -y : x;
    }
    if (family == Family.AFFINE) {
      index[n] = linear() + axis;
      value[n++] = axis == 0 ? x : y;
      if (axis == 0) {
        index[n] = linear() + 2;
        value[n++] = y;
      }
    }
    for (int b = 0; b < blocks.size(); b++) {
      Block block = blocks.get(b);
      int l = block.factor().level()[i];
      if (l < 0) {
        continue;
      }
      double vx = block.panelFrame() ? 1 - axis : axis == 0 ? cos[i] : sin[i];
      double vy = block.panelFrame() ? axis : axis == 0 ? -sin[i] : cos[i];
      int column = block.column(l);
      int from = column < 0 ? 0 : column;
      int to = column < 0 ? block.free() : column + 1;
      double sign = column < 0 ? -1 : 1;
      for (int k = from; k < to; k++) {
        index[n] = level(b, k, 0);
        value[n++] = sign * vx;
        index[n] = level(b, k, 1);
        value[n++] = sign * vy;
      }
    }
    return n;
  }

  /** Coefficients of a level's offset on the columns. */
  double[] levelOf(int block, int level, int axis) {
    double[] c = new double[count];
    int column = blocks.get(block).column(level);
    if (column >= 0) {
      c[level(block, column, axis)] = 1;
    } else {
      for (int k = 0; k < blocks.get(block).free(); k++) {
        c[level(block, k, axis)] = -1;
      }
    }
    return c;
  }

  /** The factors of a table by how a log wants them, part types first. */
  static List<LevelColumn> factors(DeviationTable t) {
    List<LevelColumn> out = new ArrayList<>();
    for (Factor name : Factor.carried()) {
      LevelColumn f = t.factors().get(name);
      if (f != null) {
        out.add(f);
      }
    }
    return out;
  }
}
