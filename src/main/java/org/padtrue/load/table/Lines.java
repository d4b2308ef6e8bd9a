package org.padtrue.load.table;

/** Line ends: LF, CR LF, or CR alone. */
final class Lines {
  private Lines() {}

  static boolean isEnd(char c) {
    return c == '\n' || c == '\r';
  }

  /** Index of the line end at or behind a place, or the length of the text. */
  static int end(String s, int from) {
    int i = from;
    while (i < s.length() && !isEnd(s.charAt(i))) {
      i++;
    }
    return i;
  }

  /** First character of the next line, given the end of this one. */
  static int next(String s, int end) {
    if (end >= s.length()) {
      return s.length();
    }
    boolean both = s.charAt(end) == '\r' && end + 1 < s.length() && s.charAt(end + 1) == '\n';
    return end + (both ? 2 : 1);
  }

  /** Length of the longest line; looks at the CR only of lines that are too long with it. */
  static int longest(String s, int limit) {
    int longest = 0;
    int at = 0;
    while (at < s.length()) {
      int feed = s.indexOf('\n', at);
      int end = feed < 0 ? s.length() : feed;
      if (end - at > limit) {
        end = end(s, at);
      }
      longest = Math.max(longest, end - at);
      at = next(s, end);
    }
    return longest;
  }
}
