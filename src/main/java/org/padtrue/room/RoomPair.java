package org.padtrue.room;

/**
 * Two neighbours before and after the moves.
 *
 * @param a id of the first
 * @param b id of the second
 * @param gap mm; negative = overlap
 * @param gapAfter mm
 * @param touching probability that they touch on the next panel; 0 or 1 without scatter
 * @param touchingAfter the same after the moves
 * @param below probability that the gap is less than wanted
 * @param belowAfter the same after the moves
 */
public record RoomPair(
    String a,
    String b,
    double gap,
    double gapAfter,
    double touching,
    double touchingAfter,
    double below,
    double belowAfter) {}
