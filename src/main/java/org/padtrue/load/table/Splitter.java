package org.padtrue.load.table;

/** Takes one line apart. */
interface Splitter {
  /** How to read quotes. */
  enum Quotes {
    /** Quotes enclose; a quote inside that no delimiter follows is an inch mark. */
    USUAL,
    /** As usual, but a doubled quote before a delimiter is an inch mark and the closing quote. */
    INCH_MARK_LAST
  }

  /**
   * Fills the cells with one line.
   *
   * @param from first character of the line
   * @param into cleared and filled
   * @param quotes how to read quotes
   * @return index of the line's end
   */
  int split(int from, Cells into, Quotes quotes);

  /**
   * Fills the cells with a row whose quoted texts run over line ends.
   *
   * @param from first character of the row
   * @param through line ends before this place may be in a quoted text
   * @return index of the row's end, or -1 when this kind of table has no such texts
   */
  default int splitOver(int from, int through, Cells into) {
    return -1;
  }

  /** Whether a text cell may hold what parts cells, so that too many cells may be mended. */
  boolean blanks();
}
