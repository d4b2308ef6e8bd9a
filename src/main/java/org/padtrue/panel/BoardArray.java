package org.padtrue.panel;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * The boards of a panel.
 *
 * @param columns number of columns, at least 1
 * @param rows number of rows, at least 1
 * @param boards every board that is placed, in order of row, then column; skipped ones are absent
 * @param skipped boards that are not placed (bad boards)
 * @param tilingResidualMm root mean square distance of the listed boards from the fitted tiling,
 *     mm; NaN when the listed boards leave no redundancy
 */
public record BoardArray(
    int columns, int rows, List<Board> boards, Set<BoardIndex> skipped, double tilingResidualMm) {

  public BoardArray {
    boards = List.copyOf(boards);
    skipped = Set.copyOf(skipped);
  }

  /** One board at the panel origin. */
  public static BoardArray single() {
    return new BoardArray(
        1, 1, List.of(new Board(BoardIndex.ONE, new Pose(0, 0, 0), true)), Set.of(), Double.NaN);
  }

  /** The board at an index, if it is placed. */
  public Optional<Board> find(BoardIndex index) {
    for (Board b : boards) {
      if (b.index().equals(index)) {
        return Optional.of(b);
      }
    }
    return Optional.empty();
  }

  /** Boards by index, for repeated look-up. */
  public Map<BoardIndex, Board> byIndex() {
    Map<BoardIndex, Board> m = new TreeMap<>();
    boards.forEach(b -> m.put(b.index(), b));
    return m;
  }
}
