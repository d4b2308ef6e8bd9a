package org.padtrue.panel;

/**
 * How the article was measured.
 *
 * @param reference against what
 * @param uncertaintyMm standard uncertainty of one measured coordinate, mm; NaN unknown
 * @param rotationUncertaintyDeg standard uncertainty of one measured rotation; NaN unknown
 * @param biasMm bias of person or camera that does not average out, mm; 0 when not given
 */
public record Measurement(
    Reference reference, double uncertaintyMm, double rotationUncertaintyDeg, double biasMm) {

  /** Against fiducials, uncertainty unknown, no bias stated. */
  public static Measurement withDefaults() {
    return new Measurement(Reference.FIDUCIALS, Double.NaN, Double.NaN, 0);
  }
}
