package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Lines that are no rows: comments, rules and banners. */
final class Comments {
  /** One such line. */
  record Line(int line, String text) {}

  private static final Pattern LABEL = Pattern.compile("[A-Za-z][A-Za-z ]*:\\s");
  private static final int MOST = 1000;
  private static final int LONGEST = 400;

  private Comments() {}

  /** True when the line from this place on is a comment. */
  static boolean isComment(String s, int from, char delimiter) {
    char c = from < s.length() ? s.charAt(from) : '\n';
    return switch (c) {
      case '#', '%', '*' -> true;
      case ';' -> delimiter != ';';
      case '/' -> from + 1 < s.length() && s.charAt(from + 1) == '/';
      default -> false;
    };
  }

  /** The text behind the comment marks. */
  static String strip(String line) {
    int i = 0;
    while (i < line.length() && "#%*;/! \t".indexOf(line.charAt(i)) >= 0) {
      i++;
    }
    return line.substring(i);
  }

  /** True for a line of dashes and the like. */
  static boolean isRule(String s, int from, int to) {
    for (int i = from; i < to; i++) {
      if ("-=_+|*.~ \t".indexOf(s.charAt(i)) < 0) {
        return false;
      }
    }
    return true;
  }

  /** False when no comment can follow, which spares looking at every line. */
  private static boolean hasMarks(String s, int from, char delimiter) {
    return s.indexOf('#', from) >= 0
        || s.indexOf('%', from) >= 0
        || s.indexOf('*', from) >= 0
        || s.indexOf("//", from) >= 0
        || (delimiter != ';' && s.indexOf(';', from) >= 0);
  }

  /** First place from here that is not blank. */
  static int ink(String s, int from) {
    int i = from;
    while (i < s.length() && Cells.isBlank(s.charAt(i))) {
      i++;
    }
    return i;
  }

  /**
   * Where the head of a file ends.
   *
   * @param end first character behind it
   * @param line its last line
   */
  record Head(int end, int line) {}

  /** The head goes on behind the header for lines such as "Units: mm". */
  static Head head(String s, int headerEnd, int headerLine) {
    int at = headerEnd;
    int line = headerLine;
    while (at < s.length()) {
      int end = Lines.end(s, at);
      boolean label = LABEL.matcher(s).region(at, end).lookingAt();
      if (!label && ink(s, at) < end) {
        break;
      }
      at = Lines.next(s, end);
      line++;
    }
    return new Head(at, line);
  }

  /** The lines before a place, and the comment lines behind it, the first thousand. */
  static List<Line> collect(String s, int headerStart, char delimiter) {
    List<Line> lines = new ArrayList<>();
    int line = 0;
    int stop = hasMarks(s, headerStart, delimiter) ? s.length() : headerStart;
    for (int at = 0; at < stop && lines.size() < MOST; ) {
      line++;
      int end = Lines.end(s, at);
      int ink = ink(s, at);
      if (ink < end && (at < headerStart || isComment(s, ink, delimiter))) {
        lines.add(new Line(line, s.substring(ink, Math.min(end, ink + LONGEST))));
      }
      at = Lines.next(s, end);
    }
    return lines;
  }
}
