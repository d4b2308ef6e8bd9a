package org.padtrue.check;

import java.util.List;

/**
 * How a second article stands against the prediction of the first.
 *
 * @param verdict in a word
 * @param chiSquare pure number, over all components of all trimmed terms at once
 * @param degreesOfFreedom components that can be told apart
 * @param p probability of a larger chi-square when all trims held
 * @param terms every trimmed term
 * @param placements measured placements that took part
 * @param scatterRatio scatter of the second article over that of the first
 * @param excluded placements left out, one sentence each
 * @param notes what a reader should know, one sentence each
 */
public record TrimCheckResult(
    TrimCheckVerdict verdict,
    double chiSquare,
    int degreesOfFreedom,
    double p,
    List<TrimCheckTerm> terms,
    int placements,
    double scatterRatio,
    List<String> excluded,
    List<String> notes) {
  public TrimCheckResult {
    terms = List.copyOf(terms);
    excluded = List.copyOf(excluded);
    notes = List.copyOf(notes);
  }
}
