package org.padtrue.load.bill;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The refs of one cell of a bill: "R1, R2-R5", "C1 C2;C3", "R1..R4", "R1 to R4".
 *
 * <p>A dash may part the ends of a range or be part of a ref ("J1-2"): the refs of the placement
 * list say which.
 *
 * @param refs the refs named one by one, or the ranges that are no refs themselves
 * @param doubtful texts that are a ref of the list and, read as a range, name others of it
 */
record RefCell(List<String> refs, List<String> doubtful) {
  private static final int LONGEST_RANGE = 2000;
  private static final Pattern PARTS = Pattern.compile("[,;|\\r\\n\\t]+");
  private static final Pattern SPREAD =
      Pattern.compile(
          "\\s*(?:\u2013|\u2014|~|\\.\\.\\.?|\u2026)\\s*|\\s+(?:-|to)\\s+|\\s+-(?=\\S)");
  private static final Pattern RANGE =
      Pattern.compile("([A-Za-z_]+)(\\d{1,6})[-\u2013]([A-Za-z_]*)(\\d{1,6})");

  /**
   * Takes a cell apart.
   *
   * @param text the cell
   * @param listed the refs of the placement list
   */
  static RefCell of(String text, Set<String> listed) {
    List<String> refs = new ArrayList<>();
    List<String> doubtful = new ArrayList<>();
    for (String part : PARTS.split(text)) {
      for (String word : SPREAD.matcher(part.trim()).replaceAll("\u2013").split("\\s+")) {
        if (!word.isEmpty()) {
          word(word, listed, refs, doubtful);
        }
      }
    }
    return new RefCell(refs, doubtful);
  }

  private static void word(
      String word, Set<String> listed, List<String> refs, List<String> doubtful) {
    String asRef = word.replace('\u2013', '-');
    List<String> range = range(word);
    boolean isRef = listed.contains(asRef);
    boolean others = range.stream().anyMatch(listed::contains);
    if (range.isEmpty() || (isRef && !others)) {
      refs.add(asRef);
    } else if (isRef) {
      doubtful.add(asRef);
    } else {
      refs.addAll(range);
    }
  }

  /** The refs from one to another; empty when the text is no range. */
  private static List<String> range(String word) {
    Matcher m = RANGE.matcher(word);
    if (!m.matches() || !(m.group(3).isEmpty() || m.group(3).equalsIgnoreCase(m.group(1)))) {
      return List.of();
    }
    int from = Integer.parseInt(m.group(2));
    int to = Integer.parseInt(m.group(4));
    if (to <= from || to - from > LONGEST_RANGE) {
      return List.of();
    }
    // "R001-R010" keeps its zeros
    int digits = m.group(2).startsWith("0") ? m.group(2).length() : 1;
    List<String> all = new ArrayList<>();
    for (int i = from; i <= to; i++) {
      String n = String.valueOf(i);
      all.add(m.group(1) + "0".repeat(Math.max(0, digits - n.length())) + n);
    }
    return all;
  }
}
