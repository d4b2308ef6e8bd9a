package org.padtrue.firstarticle.result;

import org.padtrue.land.clearance.PairSpread;

/**
 * Two neighbours that can come near.
 *
 * @param panel panel
 * @param a column/row/ref
 * @param b column/row/ref
 * @param gap least distance of the envelopes as measured, mm; negative when they overlap
 * @param gapAfterTrim with the trims entered, mm
 * @param probabilityTouching probability of touching on the next panel, trims entered
 * @param spread how the two scatter against each other on the next panel
 * @param sentence what to do about it, empty when nothing
 */
public record ClearanceResult(
    String panel,
    String a,
    String b,
    double gap,
    double gapAfterTrim,
    double probabilityTouching,
    PairSpread spread,
    String sentence) {}
