package org.padtrue.firstarticle.result;

/**
 * Where the variation comes from, one line a term.
 *
 * @param source shift, rotation, scale, array, common, part, ..., scatter, measuring, overlap
 * @param meanSquare mean over used placements of the squared length, mm^2; overlap may be negative
 * @param meanSquareAfterTrim the same with the trims entered, mm^2
 * @param removable an offset can take it out
 */
public record BudgetLine(
    String source, double meanSquare, double meanSquareAfterTrim, boolean removable) {}
