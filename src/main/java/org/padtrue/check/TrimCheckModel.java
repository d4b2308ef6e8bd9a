package org.padtrue.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Level;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Columns of the linear model that both articles share: what a unit of each term adds to a
 * placement. Units are those of the trim sheet: mm, degrees, ppm, mrad; turn and scale about the
 * panel origin.
 */
final class TrimCheckModel {
  static final int SHIFT = 0;
  static final int TURN = 2;
  static final int SCALE = 3;
  static final int ARRAY = 6;
  static final int COMMON = 10;
  static final int ZERO = 12;
  static final int LEVELS = 13;
  private static final double RAD = Math.PI / 180;

  private final Map<Level, List<Integer>> base = new HashMap<>();
  private final boolean[] partFrame;
  private final int size;

  TrimCheckModel(List<GroupResult> groups) {
    partFrame = new boolean[groups.size()];
    for (int i = 0; i < groups.size(); i++) {
      GroupResult g = groups.get(i);
      base.computeIfAbsent(g.named(), k -> new ArrayList<>()).add(LEVELS + 3 * i);
      partFrame[i] = g.frame().equals("part");
    }
    size = LEVELS + 3 * groups.size();
  }

  int size() {
    return size;
  }

  /** First column of a level, -1 when the analysis did not have it. */
  int base(Level level) {
    List<Integer> at = base.get(level);
    return at == null ? -1 : at.get(0);
  }

  /** First columns of everything that a placement belongs to, in each frame in which it acts. */
  int[] levels(String part, Levels listed, BoardIndex board) {
    return Level.of(part, listed, board).stream()
        .flatMap(l -> base.getOrDefault(l, List.of()).stream())
        .mapToInt(i -> i)
        .toArray();
  }

  boolean inPartFrame(int levelBase) {
    return partFrame[(levelBase - LEVELS) / 3];
  }

  /** One placement: where it is and which levels it belongs to (first columns, -1 for none). */
  record Place(Pose nominal, BoardIndex board, int[] levels) {
    double cos() {
      return Angles.cosDeg(nominal.rotationDeg());
    }

    double sin() {
      return Angles.sinDeg(nominal.rotationDeg());
    }
  }

  /** A row with few entries. */
  static final class Row {
    int[] index = new int[32];
    double[] value = new double[32];
    int n;

    void add(int i, double v) {
      if (v == 0) {
        return;
      }
      if (n == index.length) {
        index = java.util.Arrays.copyOf(index, 2 * n);
        value = java.util.Arrays.copyOf(value, 2 * n);
      }
      index[n] = i;
      value[n++] = v;
    }
  }

  /**
   * Fills a row.
   *
   * @param axis 0 for x, 1 for y, 2 for rotation
   */
  void fill(int axis, Place p, Row row) {
    row.n = 0;
    double x = p.nominal.xMm();
    double y = p.nominal.yMm();
    if (axis == 2) {
      row.add(TURN, 1);
      row.add(ZERO, 1);
      for (int l : p.levels) {
        if (l >= 0) {
          row.add(l + 2, 1);
        }
      }
      return;
    }
    row.add(SHIFT + axis, 1);
    row.add(TURN, RAD * (axis == 0 ? -y : x));
    row.add(SCALE + axis, 1e-6 * (axis == 0 ? x : y));
    row.add(SCALE + 2, axis == 0 ? -1e-3 * y : 0);
    row.add(ARRAY + axis, p.board.column() - 1);
    row.add(ARRAY + 2 + axis, p.board.row() - 1);
    double c = p.cos();
    double s = p.sin();
    row.add(COMMON, axis == 0 ? c : s);
    row.add(COMMON + 1, axis == 0 ? -s : c);
    for (int l : p.levels) {
      if (l >= 0 && inPartFrame(l)) {
        row.add(l, axis == 0 ? c : s);
        row.add(l + 1, axis == 0 ? -s : c);
      } else if (l >= 0) {
        row.add(l + axis, 1);
      }
    }
  }
}
