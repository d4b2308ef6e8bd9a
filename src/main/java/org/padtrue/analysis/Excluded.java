package org.padtrue.analysis;

import org.padtrue.panel.BoardIndex;

/**
 * A measured placement that is left out of the fit.
 *
 * @param panel panel
 * @param board board
 * @param ref reference designator
 * @param kind quarterTurn, halfTurn, swappedRefs, swappedXY, signFlip, wrongUnit, decimalSlip,
 *     transposedDigits or gross
 * @param fault true when it counts as a real fault (outside), false for a slip of the record
 * @param deviation what was recorded
 * @param sentence what it looks like
 */
public record Excluded(
    String panel,
    BoardIndex board,
    String ref,
    String kind,
    boolean fault,
    Xyr deviation,
    String sentence) {}
