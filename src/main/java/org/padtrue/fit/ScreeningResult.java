package org.padtrue.fit;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Outcome of a screening.
 *
 * @param zeroOrientation for each level of the part factor how the whole type is turned: 0, 90, 180
 *     or 270
 * @param findings one entry per row of the table: null when nothing is wrong; not copied
 * @param scaleMm robust scatter per axis, mm
 * @param notes sentences about whole types
 * @param apart levels that stand apart; their rows are no gross errors
 */
public record ScreeningResult(
    int[] zeroOrientation,
    @Nullable Finding[] findings,
    double scaleMm,
    List<String> notes,
    List<Apart> apart) {
  public ScreeningResult {
    notes = List.copyOf(notes);
    apart = List.copyOf(apart);
  }
}
