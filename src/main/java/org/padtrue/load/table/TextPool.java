package org.padtrue.load.table;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Gives one object for equal texts, without making a text only to look it up. */
final class TextPool {
  private @Nullable String[] slots = new String[256];
  private int size;

  /** Text of a cell; empty when the row has no such cell. */
  String text(Cells cells, int column) {
    if (cells.isEmpty(column)) {
      return "";
    }
    int from = cells.start(column);
    int n = cells.end(column) - from;
    int hash = 0;
    for (int i = 0; i < n; i++) {
      hash = 31 * hash + cells.chars().charAt(from + i);
    }
    for (int slot = hash ^ (hash >>> 16); ; slot++) {
      int at = slot & (slots.length - 1);
      String s = slots[at];
      if (s == null) {
        String fresh = cells.text(column);
        // a text with doubled quotes differs from its span and is not pooled
        return fresh.length() == n ? put(at, fresh) : fresh;
      }
      if (s.length() == n && cells.chars().startsWith(s, from)) {
        return s;
      }
    }
  }

  private String put(int at, String s) {
    slots[at] = s;
    if (++size > slots.length / 2) {
      grow();
    }
    return s;
  }

  private void grow() {
    @Nullable String[] old = slots;
    slots = Arrays.copyOf(new String[0], 2 * old.length);
    for (String s : old) {
      if (s != null) {
        int h = s.hashCode();
        int at = (h ^ (h >>> 16)) & (slots.length - 1);
        while (slots[at] != null) {
          at = (at + 1) & (slots.length - 1);
        }
        slots[at] = s;
      }
    }
  }
}
