package org.padtrue.room;

import java.util.Set;

/**
 * What is asked.
 *
 * @param gapMm gap that every pair is to keep, mm, 0 or more
 * @param probability with which, where placements scatter; more than 0.5, less than 1
 * @param maxMm longest move, mm, more than 0
 * @param fixed keys that stay where they are
 * @param turned keys that may be turned as well
 */
public record RoomOptions(
    double gapMm, double probability, double maxMm, Set<String> fixed, Set<String> turned) {
  /** As {@code --gap} and {@code --max} are when nothing is said, mm. */
  public static final double GAP_MM = 0.1;

  public static final double MAX_MM = 0.3;
  public static final double PROBABILITY = 0.99;

  public RoomOptions {
    fixed = Set.copyOf(fixed);
    turned = Set.copyOf(turned);
    if (!(gapMm >= 0) || Double.isInfinite(gapMm)) {
      throw new IllegalArgumentException("gapMm = " + gapMm + "; expected 0 or more");
    }
    if (!(maxMm > 0) || Double.isInfinite(maxMm)) {
      throw new IllegalArgumentException("maxMm = " + maxMm + "; expected more than 0");
    }
    if (!(probability > 0.5 && probability < 1)) {
      throw new IllegalArgumentException(
          "probability = " + probability + "; expected more than 0.5 and less than 1");
    }
  }

  /** Probability that a wanted thing fails which is let pass. */
  double risk() {
    return 1 - probability;
  }
}
