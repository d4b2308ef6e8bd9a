package org.padtrue.load.table;

/** Cells at fixed character columns. */
final class FixedSplitter implements Splitter {
  private final String s;
  private final int[] edges;

  /**
   * @param edges first character column of each cell, 0-based, ascending
   */
  FixedSplitter(String s, int[] edges) {
    this.s = s;
    this.edges = edges.clone();
  }

  @Override
  public boolean blanks() {
    return true;
  }

  @Override
  public int split(int from, Cells into, Quotes quotes) {
    into.clear();
    int end = Lines.end(s, from);
    for (int i = 0; i < edges.length; i++) {
      int a = Math.min(end, from + edges[i]);
      int b = i + 1 < edges.length ? Math.min(end, from + edges[i + 1]) : end;
      boolean quoted = b - a > 1 && s.charAt(a) == '"' && lastIsQuote(a, b);
      into.add(quoted ? a + 1 : a, quoted ? lastInk(a, b) : b, false);
    }
    return end;
  }

  private int lastInk(int a, int b) {
    int i = b - 1;
    while (i > a && Cells.isBlank(s.charAt(i))) {
      i--;
    }
    return i;
  }

  private boolean lastIsQuote(int a, int b) {
    int i = lastInk(a, b);
    return i > a && s.charAt(i) == '"';
  }
}
