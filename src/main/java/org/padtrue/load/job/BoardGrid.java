package org.padtrue.load.job;

import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.BoardIndex;

/** Columns and rows of boards, told by where they lie. */
final class BoardGrid {
  private final BoardIndex[] index;
  private final int columns;
  private final int rows;

  private BoardGrid(BoardIndex[] index, int columns, int rows) {
    this.index = index;
    this.columns = columns;
    this.rows = rows;
  }

  /**
   * Sorts boards into columns and rows.
   *
   * @param centres n rows, one for each board: x, y of its middle, mm
   * @return null when two boards share a place of the grid
   */
  static @Nullable BoardGrid of(double[][] centres) {
    double apart = leastDistance(centres);
    int[] column = ranks(centres, 0, apart / 2);
    int[] row = ranks(centres, 1, apart / 2);
    BoardIndex[] index = new BoardIndex[centres.length];
    Set<BoardIndex> seen = new HashSet<>();
    for (int i = 0; i < index.length; i++) {
      index[i] = new BoardIndex(column[i], row[i]);
      if (!seen.add(index[i])) {
        return null;
      }
    }
    int columns = Arrays.stream(column).max().orElse(1);
    int rows = Arrays.stream(row).max().orElse(1);
    // a staggered panel would be a grid with most places empty
    return 2 * index.length < columns * rows ? null : new BoardGrid(index, columns, rows);
  }

  private static double leastDistance(double[][] c) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < c.length; i++) {
      for (int j = 0; j < i; j++) {
        least = Math.min(least, Math.hypot(c[i][0] - c[j][0], c[i][1] - c[j][1]));
      }
    }
    return least;
  }

  /** Numbers from 1 by ascending coordinate; a step wider than the gap begins a new number. */
  private static int[] ranks(double[][] c, int axis, double gap) {
    Integer[] order = new Integer[c.length];
    Arrays.setAll(order, i -> i);
    Arrays.sort(order, Comparator.comparingDouble(i -> c[i][axis]));
    int[] rank = new int[c.length];
    int r = 1;
    for (int k = 0; k < order.length; k++) {
      if (k > 0 && c[order[k]][axis] - c[order[k - 1]][axis] > gap) {
        r++;
      }
      rank[order[k]] = r;
    }
    return rank;
  }

  int columns() {
    return columns;
  }

  int rows() {
    return rows;
  }

  BoardIndex index(int board) {
    return index[board];
  }

  /** The board that comes first by row, then column. */
  int first() {
    int best = 0;
    for (int i = 1; i < index.length; i++) {
      if (index[i].compareTo(index[best]) < 0) {
        best = i;
      }
    }
    return best;
  }

  /** Places without a board. */
  Set<BoardIndex> gaps() {
    Set<BoardIndex> gaps = new TreeSet<>();
    for (int r = 1; r <= rows; r++) {
      for (int c = 1; c <= columns; c++) {
        gaps.add(new BoardIndex(c, r));
      }
    }
    gaps.removeAll(Set.of(index));
    return gaps;
  }
}
