package org.padtrue.firstarticle.result;

import java.util.List;

/**
 * How the panel stands against its limits.
 *
 * @param acceptanceClass 1, 2 or 3
 * @param judged measured placements that have a limit
 * @param outside of them outside
 * @param outsideAfterTrim of them outside with the trims entered
 * @param expectedOutside expected number outside on the next panel, untrimmed
 * @param expectedOutsideAfterTrim the same with the trims entered
 * @param cpk short-term index by axis of the part frame, each placement scaled by its tolerance
 * @param cpkLower95 lower 95 % confidence bound
 * @param cpkAfterTrim with the trims entered
 * @param types the same by part type, worst index first
 * @param notJudgedParts part types that have neither geometry nor tolerance
 */
public record Acceptance(
    int acceptanceClass,
    int judged,
    int outside,
    int outsideAfterTrim,
    Expected expectedOutside,
    Expected expectedOutsideAfterTrim,
    Xy cpk,
    Xy cpkLower95,
    Xy cpkAfterTrim,
    List<TypeIndex> types,
    List<String> notJudgedParts) {
  public Acceptance {
    types = List.copyOf(types);
    notJudgedParts = List.copyOf(notJudgedParts);
  }
}
