package org.padtrue.panel;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is placed: geometry and how far off is too far.
 *
 * @param name name as the placement file spells it
 * @param kind kind of joint
 * @param symmetry 1, 2 (looks the same after 180 degrees) or 4 (after 90)
 * @param selfCentres true when surface tension pulls it onto its lands in reflow
 * @param body body outline with zero offset, or null
 * @param bodyHeightMm mm, NaN when not given
 * @param terminations metal ends, in the order of {@code lands}
 * @param lands copper, one for each termination
 * @param envelope outline during assembly, or null
 * @param tolerance allowed deviation; overrides the geometry; or null
 */
public record PartType(
    String name,
    JointKind kind,
    int symmetry,
    boolean selfCentres,
    @Nullable Rect body,
    double bodyHeightMm,
    List<Rect> terminations,
    List<Rect> lands,
    @Nullable Envelope envelope,
    @Nullable Tolerance tolerance) {

  public PartType {
    terminations = List.copyOf(terminations);
    lands = List.copyOf(lands);
  }

  /** A type of which nothing is known but the name: judged by nothing. */
  public static PartType unknown(String name) {
    return new PartType(
        name, JointKind.OTHER, 1, false, null, Double.NaN, List.of(), List.of(), null, null);
  }

  /** True when neither geometry nor tolerance says how far off is too far. */
  public boolean notJudged() {
    return tolerance == null && (terminations.isEmpty() || lands.isEmpty());
  }
}
