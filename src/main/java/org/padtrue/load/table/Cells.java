package org.padtrue.load.table;

import java.util.Arrays;

/**
 * The cells of the current row, as spans of the file's characters. Reused from row to row.
 *
 * <p>A span excludes the quotes around a cell and the blanks around its text.
 */
public final class Cells {
  private final String chars;
  private int[] starts = new int[32];
  private int[] ends = new int[32];
  private boolean[] doubled = new boolean[32];
  private int count;
  private int openQuote = -1;
  private boolean mended;

  Cells(String chars) {
    this.chars = chars;
  }

  /** How many cells the row has. */
  public int count() {
    return count;
  }

  /** The file's characters. */
  public String chars() {
    return chars;
  }

  /** First character of a cell. */
  public int start(int i) {
    return starts[i];
  }

  /** Behind the last character of a cell. */
  public int end(int i) {
    return ends[i];
  }

  /** True when the row has no such cell or nothing is in it. */
  public boolean isEmpty(int i) {
    return i < 0 || i >= count || starts[i] == ends[i];
  }

  /** Text of a cell, doubled quotes undone; empty when the row has no such cell. */
  public String text(int i) {
    if (isEmpty(i)) {
      return "";
    }
    String s = chars.substring(starts[i], ends[i]);
    return doubled[i] ? s.replace("\"\"", "\"") : s;
  }

  /** Where a quote opened that the line does not close, or -1. */
  int openQuote() {
    return openQuote;
  }

  /** True when a quote inside a quoted cell was taken as an inch mark. */
  boolean mended() {
    return mended;
  }

  void clear() {
    count = 0;
    openQuote = -1;
    mended = false;
  }

  void markOpen(int at) {
    openQuote = at;
  }

  void markMended() {
    mended = true;
  }

  /** Adds a cell, blanks at both ends left out. */
  void add(int from, int to, boolean withDoubledQuotes) {
    int a = from;
    int b = to;
    while (a < b && isBlank(chars.charAt(a))) {
      a++;
    }
    while (b > a && isBlank(chars.charAt(b - 1))) {
      b--;
    }
    if (count == starts.length) {
      resize(2 * count);
    }
    starts[count] = a;
    ends[count] = b;
    doubled[count++] = withDoubledQuotes;
  }

  private void resize(int n) {
    starts = Arrays.copyOf(starts, n);
    ends = Arrays.copyOf(ends, n);
    doubled = Arrays.copyOf(doubled, n);
  }

  /** Joins the cells from one to another, both included, as if nothing had parted them. */
  void merge(int from, int to) {
    ends[from] = ends[to];
    int gone = to - from;
    for (int i = from + 1; i + gone < count; i++) {
      starts[i] = starts[i + gone];
      ends[i] = ends[i + gone];
      doubled[i] = doubled[i + gone];
    }
    count -= gone;
  }

  void copyFrom(Cells o) {
    if (starts.length < o.count) {
      resize(o.count);
    }
    System.arraycopy(o.starts, 0, starts, 0, o.count);
    System.arraycopy(o.ends, 0, ends, 0, o.count);
    System.arraycopy(o.doubled, 0, doubled, 0, o.count);
    count = o.count;
    openQuote = o.openQuote;
    mended = o.mended;
  }

  void truncate(int n) {
    count = Math.min(count, n);
  }

  static boolean isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\u00a0' || c == '\f' || c == '\u001a';
  }
}
