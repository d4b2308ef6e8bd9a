package org.padtrue.panel;

/**
 * Place of a board in the panel's array.
 *
 * @param column 1-based, from the left
 * @param row 1-based, from below
 */
public record BoardIndex(int column, int row) implements Comparable<BoardIndex> {
  /** The only board of a job without an array. */
  public static final BoardIndex ONE = new BoardIndex(1, 1);

  @Override
  public int compareTo(BoardIndex o) {
    return row != o.row ? Integer.compare(row, o.row) : Integer.compare(column, o.column);
  }

  @Override
  public String toString() {
    return column + "/" + row;
  }
}
