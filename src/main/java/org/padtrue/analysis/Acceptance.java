package org.padtrue.analysis;

import java.util.List;

/**
 * How the panel stands against its limits.
 *
 * @param acceptanceClass 1, 2 or 3
 * @param judged measured placements that have a limit
 * @param outside of them outside
 * @param outsideAfterTrim of them outside with the trims entered
 * @param expectedOutside expected number outside on the next panel, untrimmed; NaN unknown
 * @param expectedOutsideAfterTrim the same with the trims entered
 * @param cpk short-term index by axis of the part frame, each placement scaled by its tolerance
 * @param cpkLower95 lower 95 % confidence bound
 * @param cpkAfterTrim with the trims entered
 * @param notJudgedParts part types that have neither geometry nor tolerance
 */
public record Acceptance(
    int acceptanceClass,
    int judged,
    int outside,
    int outsideAfterTrim,
    double expectedOutside,
    double expectedOutsideAfterTrim,
    Xy cpk,
    Xy cpkLower95,
    Xy cpkAfterTrim,
    List<String> notJudgedParts) {
  public Acceptance {
    notJudgedParts = List.copyOf(notJudgedParts);
  }
}
