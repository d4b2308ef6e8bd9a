package org.padtrue.firstarticle.result;

/**
 * One candidate of the family choice.
 *
 * @param family shift, rigid, similarity or affine
 * @param array with array terms
 * @param parameters number of fixed parameters
 * @param rss penalised residual sum of squares, mm^2
 * @param aicc pure number, small-sample Akaike criterion from maximum likelihood
 * @param f nested F against the next simpler candidate, a pure number, NaN when none
 * @param p its tail probability, NaN when none
 * @param chosen the model in use
 */
public record FamilyLine(
    String family,
    boolean array,
    int parameters,
    double rss,
    double aicc,
    double f,
    double p,
    boolean chosen) {}
