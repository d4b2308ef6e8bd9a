package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Labelled sentences for the console: plain ASCII, broken at blanks, never wider than 98. */
public final class Sentences {
  static final int WIDTH = 98;
  private static final String INDENT = " ".repeat(11);

  private final List<String> lines = new ArrayList<>();

  /** The lines so far, without line ends. */
  public List<String> lines() {
    return List.copyOf(lines);
  }

  Sentences blank() {
    lines.add("");
    return this;
  }

  /** A line by itself, cut to the width. */
  Sentences plain(String text) {
    lines.add(cut(ascii(text), WIDTH));
    return this;
  }

  /** A labelled sentence; an empty label goes on under the one before. */
  public Sentences say(String label, String sentence) {
    StringBuilder line = new StringBuilder(String.format(Locale.ROOT, "%-11s", label));
    boolean fresh = true;
    for (String word : ascii(sentence).split(" ")) {
      if (!fresh && line.length() + 1 + word.length() > WIDTH) {
        lines.add(line.toString());
        line = new StringBuilder(INDENT);
        fresh = true;
      }
      line.append(fresh ? "" : " ").append(word);
      fresh = false;
    }
    lines.add(line.toString());
    return this;
  }

  static String cut(String s, int most) {
    return s.length() <= most ? s : s.substring(0, most - 3) + "...";
  }

  /** Keeps control characters and escape sequences of hostile names off the terminal. */
  static String ascii(String s) {
    StringBuilder b = new StringBuilder(s.length());
    s.replace('\u00b5', 'u')
        .replace('\u2212', '-')
        .replace("\u00b1", "+-")
        .replace("\u00b0", "deg")
        .chars()
        .forEach(c -> b.append(c >= ' ' && c < 0x7f || c > 0x9f ? (char) c : '?'));
    return b.toString();
  }
}
