package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.List;

/**
 * Chooses how a table without delimiter is laid out: words parted by blanks, or columns at fixed
 * places. Takes the first way in which the rows have as many cells as the header and numbers where
 * numbers belong.
 */
final class BlankLayout {
  private static final int SAMPLE = 2000;

  /** A way to split rows, and the header's cells that go with it. */
  record Way(Splitter splitter, List<String> header) {}

  private final String s;
  private final HeaderFinder.Found found;
  private final TableSpec spec;
  private final String bare;

  BlankLayout(String s, HeaderFinder.Found found, TableSpec spec) {
    this.s = s;
    this.found = found;
    this.spec = spec;
    int from = found.start() + found.shift();
    this.bare = s.substring(from, Lines.end(s, from));
  }

  Way choose() {
    List<String> single = HeaderFinder.tokens(bare);
    List<String> joined = HeaderFinder.joined(single);
    Splitter words = new BlankSplitter(s, 1);
    List<Way> ways = new ArrayList<>();
    ways.add(new Way(words, joined));
    ways.add(new Way(words, single));
    ways.addAll(fixed());
    ways.add(new Way(new BlankSplitter(s, 2), joined));
    ways.add(
        new Way(new BlankSplitter(s, 2), HeaderFinder.split(bare, new BlankSplitter(bare, 2))));
    Way best = ways.get(0);
    double bestShare = -1;
    for (Way w : ways) {
      double share = fitting(w);
      if (share > bestShare) {
        bestShare = share;
        best = w;
      }
    }
    return best;
  }

  /** Share of the first rows that fit; a header that lacks a needed column fits none. */
  private double fitting(Way w) {
    HeaderMatch match = new HeaderMatch(w.header, spec);
    if (!match.usable()) {
      return -1;
    }
    Header h = match.header(found.line(), new org.padtrue.load.text.ProblemList(""));
    RowCheck check = new RowCheck(h, ',', '.');
    Cells cells = new Cells(s);
    int rows = 0;
    int fit = 0;
    for (int at = found.next(); at < s.length() && rows < SAMPLE; ) {
      int ink = Comments.ink(s, at);
      int end = Lines.end(s, at);
      if (ink < end && !Comments.isComment(s, ink, ' ') && !Comments.isRule(s, ink, end)) {
        rows++;
        w.splitter.split(at, cells, Splitter.Quotes.USUAL);
        fit += cells.count() == h.size() && check.plausible(cells) ? 1 : 0;
      }
      at = Lines.next(s, end);
    }
    return rows == 0 ? 0 : (double) fit / rows;
  }

  /** Columns between the character columns that are blank in the header and in every row. */
  private List<Way> fixed() {
    boolean[] ink = new boolean[4096];
    mark(ink, found.start() + found.shift(), found.shift());
    for (int at = found.next(); at < s.length(); ) {
      int first = Comments.ink(s, at);
      int end = Lines.end(s, at);
      if (first < end && !Comments.isComment(s, first, ' ') && !Comments.isRule(s, first, end)) {
        mark(ink, at, 0);
      }
      at = Lines.next(s, end);
    }
    List<Integer> edges = new ArrayList<>();
    for (int i = 0; i < ink.length; i++) {
      if (ink[i] && (i == 0 || !ink[i - 1])) {
        edges.add(i);
      }
    }
    if (edges.size() < 2) {
      return List.of();
    }
    int[] e = edges.stream().mapToInt(Integer::intValue).toArray();
    e[0] = 0;
    String line = " ".repeat(found.shift()) + bare;
    return List.of(
        new Way(new FixedSplitter(s, e), HeaderFinder.split(line, new FixedSplitter(line, e))));
  }

  private void mark(boolean[] ink, int from, int shift) {
    int end = Lines.end(s, from);
    for (int i = from; i < end && i - from + shift < ink.length; i++) {
      if (!Cells.isBlank(s.charAt(i))) {
        ink[i - from + shift] = true;
      }
    }
  }
}
