package org.padtrue.load.table;

import java.util.regex.Pattern;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;

/**
 * Goes through the rows of a table.
 *
 * <p>Blank lines, comments, rules, a repeated header and a line of units below the header are
 * passed over. A row whose quotes are broken is mended when exactly one reading gives the header's
 * number of cells with numbers where numbers belong; else it is a problem and the next row is
 * tried.
 */
public final class RowReader {
  /** A quoted text may run over this many lines. */
  private static final int MOST_LINES = 20;

  private static final Pattern FOOT =
      Pattern.compile(
          "\\W*(?:end\\b.{0,40}|(?:sub)?total\\b.{0,60}|page\\b.{0,40}|number of .{0,60}"
              + "|\\d+\\s+(?:components?|parts?|placements?|rows?|items?)\\b.{0,40})",
          Pattern.CASE_INSENSITIVE);

  private final String s;
  private final Header header;
  private final Splitter splitter;
  private final char delimiter;
  private final boolean endsWithinLine;
  private final ProblemList problems;
  private final RowCheck check;
  private final RowMend mend;
  private final Cells cells;
  private int at;
  private int nextLine;
  private int line;
  private int mended;
  private boolean first = true;

  RowReader(
      Table table,
      Splitter splitter,
      char delimiter,
      int from,
      int fromLine,
      ProblemList problems) {
    this.s = table.file().chars();
    this.header = table.header();
    this.splitter = splitter;
    this.delimiter = delimiter;
    this.endsWithinLine = table.file().endsWithinLine();
    this.problems = problems;
    this.check = new RowCheck(header, table.decimal());
    this.cells = new Cells(s);
    this.mend = new RowMend(s, header, splitter, check);
    this.at = from;
    this.nextLine = fromLine + 1;
  }

  /** Goes to the next row; false when there is none. */
  public boolean next() {
    while (at < s.length()) {
      int from = at;
      line = nextLine++;
      int ink = Comments.ink(s, from);
      if (ink >= s.length() || Lines.isEnd(s.charAt(ink))) {
        at = Lines.next(s, ink);
      } else if (Comments.isComment(s, ink, delimiter)) {
        at = Lines.next(s, Lines.end(s, ink));
      } else {
        int end = splitter.split(from, cells, Splitter.Quotes.USUAL);
        at = Lines.next(s, end);
        if (isRow(from, end)) {
          first = false;
          return true;
        }
      }
    }
    return false;
  }

  /** The cells of the current row. */
  public Cells cells() {
    return cells;
  }

  /** Line of the current row, 1-based. */
  public int line() {
    return line;
  }

  /** How many rows had broken quotes or a stray delimiter that could be mended. */
  public int mended() {
    return mended;
  }

  private boolean isRow(int from, int end) {
    int n = header.size();
    if (cells.openQuote() >= 0) {
      return openQuote(from, end);
    }
    if (cells.count() != n) {
      trimTail(n);
    }
    if (cells.count() > n) {
      return tooMany(from, end);
    }
    if (cells.count() < n) {
      return tooFew(from, end);
    }
    mended += cells.mended() ? 1 : 0;
    return !isFurniture(from, end);
  }

  /** Empty cells behind the last column are delimiters too many, no matter. */
  private void trimTail(int n) {
    while (cells.count() > n && cells.isEmpty(cells.count() - 1)) {
      cells.truncate(cells.count() - 1);
    }
  }

  private boolean isFurniture(int from, int end) {
    return Comments.isRule(s, from, end)
        || allEmpty()
        || isHeaderAgain()
        || (first && isUnitLine());
  }

  private boolean allEmpty() {
    for (int i = 0; i < cells.count(); i++) {
      if (!cells.isEmpty(i)) {
        return false;
      }
    }
    return true;
  }

  private boolean isHeaderAgain() {
    if (header.line() == 0) {
      return false;
    }
    for (Field f : new Field[] {Field.REF, Field.X, Field.DX}) {
      int c = header.column(f);
      if (c >= 0 && !isCell(c, header.names().get(c))) {
        return false;
      }
    }
    return true;
  }

  private boolean isCell(int c, String text) {
    return c < cells.count()
        && cells.end(c) - cells.start(c) == text.length()
        && s.regionMatches(cells.start(c), text, 0, text.length());
  }

  private boolean isUnitLine() {
    if (!cells.isEmpty(header.column(Field.REF))) {
      return false;
    }
    for (int i = 0; i < cells.count(); i++) {
      if (!cells.isEmpty(i) && HeaderName.of("x (" + cells.text(i) + ")").unitText() == null) {
        return false;
      }
    }
    return true;
  }

  private boolean tooMany(int from, int end) {
    if (isFurniture(from, end)) {
      return false;
    }
    if (mend.mergeCells(cells)) {
      // blanks within a text of a blank-parted table are nothing to speak of
      mended += splitter.blanks() ? 0 : 1;
      return true;
    }
    problems.add(
        line,
        "the row has " + cells.count() + " cells where the header has " + header.size(),
        adviceTooMany());
    return false;
  }

  private String adviceTooMany() {
    if (splitter.blanks()) {
      return "put texts with blanks in quotes";
    }
    int numbers = 0;
    for (int i = 0; i < cells.count(); i++) {
      numbers += check.isPlainNumber(cells, i) ? 1 : 0;
    }
    // x, y and rotation, and a piece more for every decimal comma
    return delimiter == ',' && numbers >= 3 + cells.count() - header.size()
        ? "its numbers seem to have decimal commas: part cells by semicolons, or write points"
        : "put a text that holds the delimiter in quotes";
  }

  /** Words without any delimiter, "Total parts: 45", are a banner between or below the rows. */
  private boolean isBanner() {
    if (splitter.blanks() || cells.count() != 1 || header.size() < 3) {
      return false;
    }
    String text = cells.text(0);
    return text.endsWith(":")
        || text.contains(": ")
        || (header.column(Field.REF) == 0 && text.indexOf(' ') >= 0);
  }

  private boolean tooFew(int from, int end) {
    if (isFurniture(from, end) || isBanner() || isFoot(from, end)) {
      return false;
    }
    if (!splitter.blanks() && mend.inchMark(from, cells)) {
      mended++;
      return true;
    }
    boolean cutOff = end >= s.length() && endsWithinLine;
    if (!cutOff && hasNeeded() && (!splitter.blanks() || check.plausible(cells))) {
      return true;
    }
    problems.add(
        line,
        "the row has "
            + TextPieces.count(cells.count(), "cell")
            + " where the header has "
            + header.size(),
        cutOff ? "the file seems to be cut off; export it again" : "complete or remove the row");
    return false;
  }

  /** The line below a report's table: "3 components", "Total: 12", "Page 2", "End of report". */
  private boolean isFoot(int from, int end) {
    return FOOT.matcher(s).region(from, end).matches();
  }

  /** True when the cells that are missing at the end are of columns that a row can do without. */
  private boolean hasNeeded() {
    for (Field f : header.columns().keySet()) {
      boolean needed =
          switch (f) {
            case REF, PART, SIDE, X, Y, ROTATION, DX, DY, PACKAGE -> true;
            default -> false;
          };
      if (needed && header.column(f) >= cells.count()) {
        return false;
      }
    }
    return true;
  }

  private boolean openQuote(int from, int end) {
    int open = cells.openQuote();
    boolean atEnd = end >= s.length();
    if (!atEnd && mend.inchMark(from, cells)) {
      mended++;
      return true;
    }
    if (!atEnd && overLines(from)) {
      return true;
    }
    boolean cut = atEnd || Comments.ink(s, Lines.next(s, end)) >= s.length();
    problems.add(
        line,
        String.valueOf(open - from + 1),
        "the quoted text that opens here never ends",
        cut ? "the file seems to be cut off; export it again" : "close the quote");
    return false;
  }

  /** A quoted text with line ends in it. */
  private boolean overLines(int from) {
    int end = mend.joinLines(from, cells, MOST_LINES);
    if (end < 0) {
      return false;
    }
    for (int i = at; i < end; ) {
      nextLine++;
      i = Lines.next(s, Lines.end(s, i));
    }
    at = Lines.next(s, end);
    return true;
  }
}
