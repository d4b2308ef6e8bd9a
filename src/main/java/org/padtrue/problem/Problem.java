package org.padtrue.problem;

/**
 * One thing wrong with an input.
 *
 * @param file file name as the user gave it; empty when no file is concerned
 * @param line 1-based line, 0 when the problem is not at a line
 * @param column 1-based character position or column name ("x"); empty when not at a column
 * @param found what was found, one clause without a full stop
 * @param mend what to do about it, one clause; empty when the finding says it
 */
public record Problem(String file, int line, String column, String found, String mend) {

  /** A problem of a whole file. */
  public static Problem of(String file, String found, String mend) {
    return new Problem(file, 0, "", found, mend);
  }

  /** A problem at a line. */
  public static Problem at(String file, int line, String found, String mend) {
    return new Problem(file, line, "", found, mend);
  }

  /** The one sentence that people read. */
  public String sentence() {
    StringBuilder b = new StringBuilder();
    if (!file.isEmpty()) {
      b.append(file);
      if (line > 0) {
        b.append(", line ").append(line);
      }
      if (!column.isEmpty()) {
        b.append(", column ").append(column);
      }
      b.append(": ");
    }
    b.append(found);
    if (!mend.isEmpty()) {
      b.append("; ").append(mend);
    }
    return b.toString();
  }
}
