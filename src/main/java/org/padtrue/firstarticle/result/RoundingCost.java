package org.padtrue.firstarticle.result;

/**
 * What the machine's resolution leaves of what could be taken out.
 *
 * @param what panel rotation, offsets or part rotation
 * @param step smallest step that the machine takes, in {@code unit}
 * @param unit of the step: mm or deg
 * @param rmsMm root mean square over the next panel of what rounding to that step leaves, mm; a
 *     rotation of parts counts at their farthest edge
 */
public record RoundingCost(String what, double step, String unit, double rmsMm) {}
