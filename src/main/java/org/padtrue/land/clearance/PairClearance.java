package org.padtrue.land.clearance;

/**
 * Two neighbours whose height ranges overlap. Gaps are least distances of their outlines, mm; a
 * negative gap is an overlap: minus the shortest shift that would free them. NaN where a pose is
 * not known.
 *
 * @param a first placement
 * @param b second placement
 * @param gapNominal as drawn, mm: negative means that they collide before anything is placed
 * @param gap as measured, mm
 * @param gapAfterTrim as predicted with the trims entered, mm
 */
public record PairClearance(
    ClearanceItem a, ClearanceItem b, double gapNominal, double gap, double gapAfterTrim) {

  /** The least of the gaps that are known, mm. */
  public double least() {
    double least = Double.POSITIVE_INFINITY;
    for (double g : new double[] {gapNominal, gap, gapAfterTrim}) {
      least = Double.isNaN(g) ? least : Math.min(least, g);
    }
    return least;
  }
}
