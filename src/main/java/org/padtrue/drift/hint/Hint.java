package org.padtrue.drift.hint;

import java.util.List;

/**
 * A likely cause and its evidence.
 *
 * @param series names of the series that show it
 * @param cause the cause
 * @param sentence evidence
 * @param action what to do, one sentence
 */
public record Hint(List<String> series, Cause cause, String sentence, String action) {
  public Hint {
    series = List.copyOf(series);
  }
}
