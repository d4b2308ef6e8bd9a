package org.padtrue.report.record;

/**
 * How well it was measured and how it is decided.
 *
 * @param uncertaintyMm standard uncertainty of a coordinate, mm; NaN not stated
 * @param rotationUncertaintyDeg standard uncertainty of a rotation, degrees; NaN not stated
 * @param biasMm bias that is not corrected, mm
 * @param coverageFactor k, a pure number
 * @param rule decision rule
 */
public record Measuring(
    double uncertaintyMm,
    double rotationUncertaintyDeg,
    double biasMm,
    double coverageFactor,
    DecisionRule rule) {

  /**
   * Expanded uncertainty of a coordinate, mm: k u, plus a bias that is not corrected (JCGM
   * 100:2008, F.2.4.5).
   */
  public double expandedMm() {
    return coverageFactor * uncertaintyMm + Math.abs(biasMm);
  }

  /** Expanded uncertainty of a rotation, degrees. */
  public double expandedDeg() {
    return coverageFactor * rotationUncertaintyDeg;
  }

  /**
   * Expanded uncertainty of the room on a land: a coordinate, and a rotation at the end of the part
   * that is farthest out. Rather too large than too small, since the tightest edge need not be the
   * farthest one.
   *
   * @param leverMm distance from the part's origin to its farthest edge, mm
   */
  public double expandedLandFitMm(double leverMm) {
    double turn = leverMm * Math.toRadians(rotationUncertaintyDeg);
    return coverageFactor * Math.hypot(uncertaintyMm, turn) + Math.abs(biasMm);
  }
}
