package org.padtrue.load.table;

/** Cells parted by one character. */
final class DelimitedSplitter implements Splitter {
  private final String s;
  private final char delimiter;
  private int through;

  DelimitedSplitter(String s, char delimiter) {
    this.s = s;
    this.delimiter = delimiter;
  }

  @Override
  public boolean blanks() {
    return false;
  }

  @Override
  public int split(int from, Cells into, Quotes quotes) {
    into.clear();
    int n = s.length();
    int at = from;
    while (true) {
      int open = skipBlanks(at);
      boolean quoted = open < n && s.charAt(open) == '"';
      at = quoted ? quoted(open, into, quotes) : plain(at, into);
      if (at >= n || s.charAt(at) != delimiter) {
        return at;
      }
      at++;
    }
  }

  @Override
  public int splitOver(int from, int end, Cells into) {
    through = end;
    int stop = split(from, into, Quotes.USUAL);
    through = 0;
    return stop;
  }

  /** Blanks beside a quote; some write a tab as well behind each quoted text. */
  private int skipBlanks(int from) {
    int i = from;
    while (i < s.length() && isBlank(s.charAt(i))) {
      i++;
    }
    return i;
  }

  private boolean isBlank(char c) {
    return c == ' ' || (c == '\t' && delimiter != '\t');
  }

  private int plain(int from, Cells into) {
    int i = from;
    int n = s.length();
    while (i < n) {
      char c = s.charAt(i);
      if (c == delimiter || c == '\n' || c == '\r') {
        break;
      }
      i++;
    }
    into.add(from, i, false);
    return i;
  }

  /** A quoted cell from its opening quote; returns the index of what follows it. */
  private int quoted(int open, Cells into, Quotes quotes) {
    boolean doubled = false;
    int n = s.length();
    int i = open + 1;
    while (i < n && (i < through || !Lines.isEnd(s.charAt(i)))) {
      if (s.charAt(i) != '"') {
        i++;
      } else if (i + 1 < n && s.charAt(i + 1) == '"' && !closesAfterInch(i, quotes)) {
        doubled = true;
        i += 2;
      } else if (ends(i + 1)) {
        into.add(open + 1, i, doubled);
        return skipBlanks(i + 1);
      } else {
        // a lone quote: part of the text; with a doubled one behind it, the next round closes
        into.markMended();
        i++;
      }
    }
    into.markOpen(open);
    into.add(open + 1, i, doubled);
    return i;
  }

  private boolean closesAfterInch(int i, Quotes quotes) {
    return quotes == Quotes.INCH_MARK_LAST && ends(i + 2);
  }

  private boolean ends(int from) {
    int i = skipBlanks(from);
    return i >= s.length() || s.charAt(i) == delimiter || Lines.isEnd(s.charAt(i));
  }
}
