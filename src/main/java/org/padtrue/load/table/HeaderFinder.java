package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Finds the header line: the first one in which a delimiter shows the columns that are needed. */
final class HeaderFinder {
  /** Parted by runs of blanks. */
  static final char BLANKS = ' ';

  private static final char[] DELIMITERS = {',', ';', '\t', '|', '!', BLANKS};
  private static final int MOST_LINES = 400;
  private static final Pattern LABEL =
      Pattern.compile("^(?:fields|columns|format)\\s*[:=]\\s*", Pattern.CASE_INSENSITIVE);

  /**
   * A header.
   *
   * @param line its line, 1-based
   * @param start its first character
   * @param shift characters taken off at its front (comment marks)
   * @param next first character behind it
   * @param delimiter what parts the cells
   * @param match what the cells mean
   */
  record Found(int line, int start, int shift, int next, char delimiter, HeaderMatch match) {}

  private final String s;
  private final TableSpec spec;
  private @Nullable Found best;
  private @Nullable Found nearly;

  HeaderFinder(String s, TableSpec spec) {
    this.s = s;
    this.spec = spec;
    search();
  }

  /** The header, or null. */
  @Nullable Found found() {
    return best;
  }

  /** The line that looks most like a header though columns are missing, or null. */
  @Nullable Found nearly() {
    return nearly;
  }

  private void search() {
    int line = 0;
    int inked = 0;
    for (int at = 0; at < s.length() && inked < MOST_LINES && best == null; ) {
      line++;
      int end = Lines.end(s, at);
      if (Comments.ink(s, at) < end) {
        inked++;
        tryLine(line, at, end);
      }
      at = Lines.next(s, end);
    }
  }

  private void tryLine(int line, int at, int end) {
    String text = s.substring(at, end);
    String bare = Comments.strip(text);
    Matcher m = LABEL.matcher(bare);
    bare = m.find() ? bare.substring(m.end()) : bare;
    int shift = text.length() - bare.length();
    for (char d : DELIMITERS) {
      for (List<String> cells : cells(bare, d)) {
        if (cells.size() > 1) {
          HeaderMatch match = new HeaderMatch(cells, spec);
          keep(new Found(line, at, shift, Lines.next(s, end), d, match));
        }
      }
    }
  }

  private void keep(Found f) {
    if (f.match.usable()) {
      // a header that a delimiter parts may have blanks within its names
      boolean better = best == null || f.match.score() > best.match.score();
      if (better && (best == null || f.delimiter != BLANKS || best.delimiter == BLANKS)) {
        best = f;
      }
    } else if (f.match.score() >= 2 && (nearly == null || f.match.score() > nearly.match.score())) {
      nearly = f;
    }
  }

  private static List<List<String>> cells(String bare, char delimiter) {
    if (delimiter == BLANKS) {
      List<String> single = tokens(bare);
      List<String> joined = joined(single);
      return joined.size() < single.size() ? List.of(joined, single) : List.of(single);
    }
    if (bare.indexOf(delimiter) < 0) {
      return List.of();
    }
    return List.of(split(bare, new DelimitedSplitter(bare, delimiter)));
  }

  static List<String> split(String line, Splitter splitter) {
    Cells c = new Cells(line);
    splitter.split(0, c, Splitter.Quotes.USUAL);
    List<String> cells = new ArrayList<>();
    for (int i = 0; i < c.count(); i++) {
      cells.add(c.text(i));
    }
    return cells;
  }

  /** Header words between blanks. */
  static List<String> tokens(String bare) {
    return split(bare, new BlankSplitter(bare, 1));
  }

  /** Header words, those joined that make one known name together: "Mid X", "X (mm)". */
  static List<String> joined(List<String> tokens) {
    List<String> out = new ArrayList<>();
    int i = 0;
    while (i < tokens.size()) {
      int n = 1;
      for (int k = Math.min(4, tokens.size() - i); k > 1; k--) {
        String together = String.join(" ", tokens.subList(i, i + k));
        if (HeaderName.of(together).meaning().isPresent()) {
          n = k;
          break;
        }
      }
      out.add(String.join(" ", tokens.subList(i, i + n)));
      i += n;
    }
    return out;
  }
}
