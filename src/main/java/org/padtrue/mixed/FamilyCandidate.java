package org.padtrue.mixed;

/**
 * One candidate of the family choice.
 *
 * @param family panel transform
 * @param array with array terms
 * @param parameters number of fixed parameters
 * @param rss penalised residual sum of squares at the variance ratios of the richest candidate,
 *     mm^2
 * @param aicc pure number, from maximum likelihood, same random terms in every candidate
 * @param f nested F against the next simpler candidate, a pure number; NaN when none
 * @param p its tail probability
 */
public record FamilyCandidate(
    PanelFamily family,
    boolean array,
    int parameters,
    double rss,
    double aicc,
    double f,
    double p) {}
