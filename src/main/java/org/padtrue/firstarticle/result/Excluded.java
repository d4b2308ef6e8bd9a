package org.padtrue.firstarticle.result;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.panel.BoardIndex;

/**
 * A measured placement that is left out of the fit.
 *
 * @param panel panel
 * @param board board
 * @param ref reference designator
 * @param kind quarterTurn, halfTurn, swappedRefs, swappedXY, signFlip, wrongUnit, decimalSlip,
 *     transposedDigits, neighbour, wrongInList or gross, or a status: missing, notPlaced,
 *     tombstone, onItsSide, upsideDown, skewed, wrongPolarity, wrongPart, damaged
 * @param fault true when it counts as a real fault (outside), false for a slip of the record
 * @param deviation what was recorded; NaN where nothing was
 * @param sentence what it looks like
 */
public record Excluded(
    String panel,
    BoardIndex board,
    String ref,
    String kind,
    boolean fault,
    Xyr deviation,
    String sentence) {

  /** What a person reads: a wrong row of the placement list once, not on every board. */
  public static List<Excluded> shown(List<Excluded> all) {
    Set<String> told = new HashSet<>();
    return all.stream().filter(e -> !e.kind().equals("wrongInList") || told.add(e.ref())).toList();
  }
}
