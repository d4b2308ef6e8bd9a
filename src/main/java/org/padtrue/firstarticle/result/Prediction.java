package org.padtrue.firstarticle.result;

import java.util.List;

/**
 * Root mean square deviation of placements (vector length in x and y).
 *
 * @param seen as measured, used placements, mm
 * @param nextUntrimmed expected on the next panel when nothing is changed, mm
 * @param nextTrimmed expected on the next panel with the rounded trims, mm
 * @param floor what scatter alone leaves, mm
 * @param rounding what the machine's resolution leaves, by kind, the largest first
 */
public record Prediction(
    double seen,
    double nextUntrimmed,
    double nextTrimmed,
    double floor,
    List<RoundingCost> rounding) {
  public Prediction {
    rounding = List.copyOf(rounding);
  }

  /** Nothing is known of rounding. */
  public Prediction(double seen, double nextUntrimmed, double nextTrimmed, double floor) {
    this(seen, nextUntrimmed, nextTrimmed, floor, List.of());
  }
}
