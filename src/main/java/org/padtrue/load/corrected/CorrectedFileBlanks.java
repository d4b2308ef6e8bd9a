package org.padtrue.load.corrected;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.load.placement.RowCells;

/**
 * Keeps the columns of a blank-parted file in line: a number that grows takes blanks beside it, one
 * that shrinks leaves blanks, on the side to which its column is not aligned.
 */
final class CorrectedFileBlanks {
  private final String chars;

  CorrectedFileBlanks(String chars) {
    this.chars = chars;
  }

  /** True when numbers of a column end below each other more often than they begin so. */
  boolean alignedRight(List<RowCells.Span> column) {
    Set<Integer> starts = new HashSet<>();
    Set<Integer> ends = new HashSet<>();
    for (RowCells.Span s : column) {
      int line = lineStart(s.start());
      starts.add(s.start() - line);
      ends.add(s.end() - line);
    }
    return ends.size() < starts.size();
  }

  private int lineStart(int at) {
    int i = at;
    while (i > 0 && chars.charAt(i - 1) != '\n' && chars.charAt(i - 1) != '\r') {
      i--;
    }
    return i;
  }

  /** The edit, its blanks included. */
  CorrectedFileEdit fit(CorrectedFileEdit e, boolean right) {
    int grow = e.text().length() - (e.end() - e.start());
    if (grow == 0) {
      return e;
    }
    if (grow < 0) {
      String pad = " ".repeat(-grow);
      return new CorrectedFileEdit(e.start(), e.end(), right ? pad + e.text() : e.text() + pad);
    }
    int before = spareBefore(e.start());
    int behind = spareBehind(e.end());
    int left = right ? Math.min(grow, before) : Math.max(0, Math.min(before, grow - behind));
    int rest = Math.min(grow - left, behind);
    return new CorrectedFileEdit(e.start() - left, e.end() + rest, e.text());
  }

  /** Blanks before a place that can go; one stays. */
  private int spareBefore(int at) {
    int i = at;
    while (i > 0 && chars.charAt(i - 1) == ' ') {
      i--;
    }
    return Math.max(0, at - i - 1);
  }

  private int spareBehind(int at) {
    int i = at;
    while (i < chars.length() && chars.charAt(i) == ' ') {
      i++;
    }
    boolean lineEnds = i == chars.length() || chars.charAt(i) == '\n' || chars.charAt(i) == '\r';
    return Math.max(0, i - at - (lineEnds ? 0 : 1));
  }
}
