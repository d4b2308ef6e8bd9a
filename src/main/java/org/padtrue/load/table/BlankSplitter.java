package org.padtrue.load.table;

/** Cells parted by runs of blanks; with {@code least} 2 a single blank stays within a cell. */
final class BlankSplitter implements Splitter {
  private final String s;
  private final int least;

  BlankSplitter(String s, int least) {
    this.s = s;
    this.least = least;
  }

  @Override
  public boolean blanks() {
    return true;
  }

  @Override
  public int split(int from, Cells into, Quotes quotes) {
    into.clear();
    int end = Lines.end(s, from);
    int i = from;
    while (true) {
      while (i < end && Cells.isBlank(s.charAt(i))) {
        i++;
      }
      if (i >= end) {
        return end;
      }
      int close = s.charAt(i) == '"' ? closing(i + 1, end) : -1;
      if (close > 0) {
        into.add(i + 1, close, false);
        i = close + 1;
      } else {
        int stop = stop(i, end);
        into.add(i, stop, false);
        i = stop;
      }
    }
  }

  /** The quote that closes a cell: the first one with a blank or the line's end behind it. */
  private int closing(int from, int end) {
    for (int i = from; i < end; i++) {
      if (s.charAt(i) == '"' && (i + 1 == end || Cells.isBlank(s.charAt(i + 1)))) {
        return i;
      }
    }
    return -1;
  }

  private int stop(int from, int end) {
    int i = from;
    while (i < end) {
      if (!Cells.isBlank(s.charAt(i))) {
        i++;
        continue;
      }
      int run = i;
      while (run < end && Cells.isBlank(s.charAt(run))) {
        run++;
      }
      if (run - i >= least || run == end || s.charAt(i) == '\t') {
        return i;
      }
      i = run;
    }
    return i;
  }
}
