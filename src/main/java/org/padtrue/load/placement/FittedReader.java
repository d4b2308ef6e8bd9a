package org.padtrue.load.placement;

import java.util.IdentityHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;

/** Tells for each row whether its part is fitted. */
final class FittedReader {
  private static final Field[] WORDS = {Field.STATUS, Field.VALUE, Field.PART, Field.PACKAGE};

  private final Header header;
  private final CellReader cells;
  private final Map<String, Boolean> known = new IdentityHashMap<>();
  private final @Nullable String[] last = new String[WORDS.length];
  private final boolean[] lastSays = new boolean[WORDS.length];
  private boolean yesSeen;
  private boolean noSeen;
  private int firstBlank;
  private boolean otherSeen;

  FittedReader(Header header, CellReader cells) {
    this.header = header;
    this.cells = cells;
  }

  /** True when the current row's part is fitted. */
  boolean fitted(int line) {
    if (header.has(Field.NOT_FITTED) && saysNotFitted()) {
      return false;
    }
    if (header.has(Field.FITTED) && saysUnfitted(line)) {
      return false;
    }
    for (int i = 0; i < WORDS.length; i++) {
      if (header.has(WORDS[i]) && saysNotFitted(i)) {
        return false;
      }
    }
    return true;
  }

  /** Texts are pooled, and nearly always the last one of the column comes again. */
  @SuppressWarnings(
      "ReferenceEquality") // the same text is the same object, or it is looked up again
  private boolean saysNotFitted(int word) {
    String text = cells.text(WORDS[word]);
    if (text != last[word]) {
      last[word] = text;
      lastSays[word] = known.computeIfAbsent(text, YesNoWords::notFittedWithin);
    }
    return lastSays[word];
  }

  private boolean saysNotFitted() {
    String s = cells.text(Field.NOT_FITTED);
    if (!s.isEmpty() && !YesNoWords.yes(s) && !YesNoWords.no(s)) {
      cells.complain(Field.NOT_FITTED, "'" + s + "' says neither yes nor no", "write yes or no");
    }
    return YesNoWords.yes(s);
  }

  private boolean saysUnfitted(int line) {
    String s = cells.text(Field.FITTED);
    boolean no = YesNoWords.no(s) || YesNoWords.notFittedExactly(s);
    noSeen |= no;
    yesSeen |= !no && YesNoWords.yes(s);
    otherSeen |= !s.isEmpty() && !no && !YesNoWords.yes(s);
    if (s.isEmpty() && firstBlank == 0) {
      firstBlank = line;
    }
    return no;
  }

  /** Line of a blank that could mean either, or 0: only yes and blanks were seen. */
  int doubtfulLine() {
    return yesSeen && !noSeen && !otherSeen ? firstBlank : 0;
  }
}
