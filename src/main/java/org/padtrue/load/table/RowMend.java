package org.padtrue.load.table;

/** Other readings of a row that does not have as many cells as the header. */
final class RowMend {
  /** More cells than this above the header's number are no stray delimiters any more. */
  private static final int MOST_EXTRA = 12;

  /** A cell of refs may run over so many times the lines of a text. */
  private static final int REFS = 10;

  private final String s;
  private final Header header;
  private final Splitter splitter;
  private final RowCheck check;
  private final Cells trial;
  private final Cells kept;
  private final boolean bill;

  RowMend(String s, Header header, Splitter splitter, RowCheck check) {
    this.s = s;
    this.header = header;
    this.splitter = splitter;
    this.check = check;
    this.trial = new Cells(s);
    this.kept = new Cells(s);
    this.bill = !header.has(Field.X) && !header.has(Field.DX);
  }

  private boolean fits(Cells c) {
    return c.openQuote() < 0 && c.count() == header.size() && check.plausible(c);
  }

  /** The same of a row over several lines; a bill of materials has no positions to go by. */
  private boolean whole(Cells c) {
    return bill
        ? c.openQuote() < 0 && c.count() == header.size() && !c.isEmpty(header.column(Field.REF))
        : fits(c);
  }

  /** An inch mark before a closing quote. */
  boolean inchMark(int from, Cells cells) {
    splitter.split(from, trial, Splitter.Quotes.INCH_MARK_LAST);
    return take(cells);
  }

  private boolean take(Cells cells) {
    if (!fits(trial)) {
      return false;
    }
    cells.copyFrom(trial);
    return true;
  }

  /**
   * Joins neighbouring cells of a text that holds the delimiter, when only one text can be it.
   *
   * @return true when the row has the header's number of cells now
   */
  boolean mergeCells(Cells cells) {
    int extra = cells.count() - header.size();
    if (extra > MOST_EXTRA) {
      return false;
    }
    boolean found = false;
    for (int k = 0; k + extra < cells.count(); k++) {
      if (mayHoldText(k) && (splitter.blanks() || noNumbers(cells, k, k + extra))) {
        trial.copyFrom(cells);
        trial.merge(k, k + extra);
        if (fits(trial)) {
          if (found && !sameWhereItMatters()) {
            return false;
          }
          kept.copyFrom(trial);
          found = true;
        }
      }
    }
    if (found) {
      cells.copyFrom(kept);
    }
    return found;
  }

  /** True when no ref and no number runs over a line end. */
  private boolean brokenInText(Cells cells) {
    for (int i = 0; i < cells.count(); i++) {
      if (Lines.end(s, cells.start(i)) < cells.end(i) && !mayHoldText(i) && !isRefs(i)) {
        return false;
      }
    }
    return true;
  }

  /** A cell of several refs, which a bill of materials may write one below the other. */
  private boolean isRefs(int column) {
    return bill && header.column(Field.REF) == column;
  }

  private boolean mayHoldText(int column) {
    for (Field f : header.columns().keySet()) {
      if (header.column(f) == column) {
        return !f.numeric() && f != Field.REF && f != Field.SIDE;
      }
    }
    return true;
  }

  private boolean noNumbers(Cells cells, int from, int to) {
    for (int i = from; i <= to; i++) {
      if (check.isPlainNumber(cells, i)) {
        return false;
      }
    }
    return true;
  }

  private boolean sameWhereItMatters() {
    for (Field f : header.columns().keySet()) {
      int i = header.column(f);
      boolean matters = f != Field.NOTE && f != Field.STATUS && f != Field.TIME && !isSpareText(f);
      if (matters && (kept.start(i) != trial.start(i) || kept.end(i) != trial.end(i))) {
        return false;
      }
    }
    return true;
  }

  /** A text that stands in for the part type only when there is no better one. */
  private boolean isSpareText(Field f) {
    boolean partKnown = header.has(Field.PART);
    return (f == Field.VALUE && (partKnown || header.has(Field.PACKAGE)))
        || (f == Field.PACKAGE && partKnown);
  }

  /**
   * Reads a quoted text over several lines.
   *
   * @return index of the end of the last line, or -1 when the quote does not close in time
   */
  int joinLines(int from, Cells cells, int mostLines) {
    int end = Lines.end(s, from);
    int most = bill ? REFS * mostLines : mostLines;
    for (int n = 1; n < most && end < s.length(); n++) {
      end = Lines.end(s, Lines.next(s, end));
      if (splitter.splitOver(from, end, trial) == end && whole(trial) && brokenInText(trial)) {
        cells.copyFrom(trial);
        return end;
      }
    }
    return -1;
  }
}
