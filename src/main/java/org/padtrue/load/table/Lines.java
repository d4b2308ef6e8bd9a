package org.padtrue.load.table;

import org.jspecify.annotations.Nullable;

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

  /**
   * The first line longer than a limit, as {line number from 1, characters}; null when there is
   * none. Looks at the CR only of lines that are too long with it.
   */
  static int @Nullable [] tooLong(String s, int limit) {
    int at = 0;
    for (int line = 1; at < s.length(); line++) {
      int feed = s.indexOf('\n', at);
      int end = feed < 0 ? s.length() : feed;
      if (end - at > limit) {
        end = end(s, at);
        if (end - at > limit) {
          return new int[] {line, end - at};
        }
      }
      at = next(s, end);
    }
    return null;
  }
}
