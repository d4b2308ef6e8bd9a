package org.padtrue.load.placement;

/**
 * Where the numbers of a placement row stand in the file's characters, quotes and blanks around
 * them left out, a unit behind them included.
 *
 * @param line line of the row
 * @param x the x cell
 * @param y the y cell
 * @param rotation the rotation cell
 */
public record RowCells(int line, Span x, Span y, Span rotation) {
  /**
   * A piece of the file.
   *
   * @param start first character
   * @param end behind the last character
   */
  public record Span(int start, int end) {}
}
