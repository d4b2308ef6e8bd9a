package org.padtrue.load.corrected;

import java.util.List;

/**
 * A piece of the file's characters and what takes its place.
 *
 * @param start first character
 * @param end behind the last character
 * @param text the new characters
 */
record CorrectedFileEdit(int start, int end, String text) {

  /** Carries edits out; they are in order and do not overlap. */
  static String apply(String chars, List<CorrectedFileEdit> edits) {
    StringBuilder b = new StringBuilder(chars.length() + 2 * edits.size());
    int at = 0;
    for (CorrectedFileEdit e : edits) {
      b.append(chars, at, e.start).append(e.text);
      at = e.end;
    }
    return b.append(chars, at, chars.length()).toString();
  }
}
