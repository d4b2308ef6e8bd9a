package org.padtrue.web.bench;

import java.util.List;
import java.util.Map;

/** Words on damaged lines of a journal. */
final class Damage {
  private static final int MOST = 8;

  private Damage() {}

  /**
   * A line of a journal that cannot be read.
   *
   * @param line its 1-based number in the file
   * @param placement panel/column/row/ref as far as it can be read, else empty
   * @param after number of the last entry before it that can be read
   */
  record Line(long line, String placement, long after) {}

  /**
   * What was lost, a sentence for each line.
   *
   * @param measured what stands, by placement
   */
  static List<String> sentences(List<Line> lines, Map<String, Entry> measured) {
    List<String> all =
        new java.util.ArrayList<>(
            lines.stream().limit(MOST).map(l -> sentence(l, measured)).toList());
    if (lines.size() > MOST) {
      all.add((lines.size() - MOST) + " more lines are damaged likewise.");
    }
    return all;
  }

  private static String sentence(Line l, Map<String, Entry> measured) {
    String start = "Line " + l.line() + " of what was entered here is damaged on the disk";
    if (l.placement().isEmpty()) {
      return start
          + " and does not count; which placement it was about cannot be read. Look for one that is"
          + " empty or old, and enter it again.";
    }
    String[] at = l.placement().split("/", 4);
    String name =
        at[1].equals("1") && at[2].equals("1") ? at[3] : at[1] + "/" + at[2] + "/" + at[3];
    Entry now = measured.get(l.placement());
    if (now != null && now.sequence() > l.after()) {
      return start + "; it was about " + name + ", which was entered again behind it.";
    }
    return start
        + " and does not count; it seems to be about "
        + name
        + ". Enter "
        + name
        + (now == null ? " again." : " again: what stands there now is older.");
  }
}
