package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Long sentences for the console: lines of at most 98 columns, continued under their text. */
public final class Wrap {
  private static final int WIDTH = 98;
  private static final int LABEL = 11;

  private Wrap() {}

  /** A label in its column and the sentence behind it. */
  public static List<String> say(String label, String sentence) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder(String.format(Locale.ROOT, "%-" + LABEL + "s", label));
    boolean empty = true;
    for (String word : sentence.split(" ")) {
      if (!empty && line.length() + 1 + word.length() > WIDTH) {
        lines.add(line.toString());
        line = new StringBuilder(" ".repeat(LABEL));
        empty = true;
      }
      line.append(empty ? "" : " ").append(word);
      empty = false;
    }
    lines.add(line.toString());
    return lines;
  }

  /** Several sentences under one label, each on a line of its own. */
  public static List<String> say(String label, List<String> sentences) {
    List<String> lines = new ArrayList<>();
    for (String s : sentences) {
      lines.addAll(say(lines.isEmpty() ? label : "", s));
    }
    return lines;
  }
}
