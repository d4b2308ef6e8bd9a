package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;

/** A short table on the console: plain text, columns in line, names left, numbers right. */
public final class TextTable {
  private final List<String[]> rows = new ArrayList<>();
  private final String indent;
  private final String kinds;

  /**
   * An empty table.
   *
   * @param indent blanks before each line
   * @param kinds one letter per column: 't' for texts, 'n' for numbers
   */
  public TextTable(String indent, String kinds) {
    this.indent = indent;
    this.kinds = kinds;
  }

  public TextTable row(String... cells) {
    if (cells.length != kinds.length()) {
      throw new IllegalArgumentException(cells.length + " cells for " + kinds.length());
    }
    rows.add(cells.clone());
    return this;
  }

  public List<String> lines() {
    int[] width = new int[kinds.length()];
    for (String[] r : rows) {
      for (int c = 0; c < r.length; c++) {
        width[c] = Math.max(width[c], r[c].length());
      }
    }
    return rows.stream().map(r -> line(r, width)).toList();
  }

  private String line(String[] cells, int[] width) {
    StringBuilder b = new StringBuilder(indent);
    for (int c = 0; c < cells.length; c++) {
      String blanks = " ".repeat(width[c] - cells[c].length());
      b.append(c == 0 ? "" : "  ");
      b.append(kinds.charAt(c) == 'n' ? blanks + cells[c] : cells[c] + blanks);
    }
    return plain(b.toString().stripTrailing());
  }

  /** Keeps control characters and escape sequences of hostile names off the terminal. */
  public static String plain(String s) {
    StringBuilder b = new StringBuilder(s.length());
    s.chars().forEach(c -> b.append(c >= ' ' && c != 0x7f && c != 0x9b ? (char) c : '?'));
    return b.toString();
  }
}
