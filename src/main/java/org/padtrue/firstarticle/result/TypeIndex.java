package org.padtrue.firstarticle.result;

/**
 * Short-term indices and tolerance intervals of one part type, in the part frame.
 *
 * <p>The tolerance interval holds 99 % of such placements with 95 % confidence, as far as they are
 * normal and scatter as on this article (factors exact, see land.ToleranceFactor).
 *
 * @param part part type
 * @param count judged placements
 * @param allowed deviation allowed either way, mm
 * @param cpk index of the placements as measured; NaN below two
 * @param cpkLower95 lower 95 % confidence bound
 * @param cpkAfterTrim index with the trims entered
 * @param cpkAfterTrimLower95 lower 95 % confidence bound
 * @param low lower end of the tolerance interval with the trims entered, mm; NaN below two
 * @param high upper end, mm
 */
public record TypeIndex(
    String part,
    int count,
    Xy allowed,
    Xy cpk,
    Xy cpkLower95,
    Xy cpkAfterTrim,
    Xy cpkAfterTrimLower95,
    Xy low,
    Xy high) {}
