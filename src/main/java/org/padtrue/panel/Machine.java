package org.padtrue.panel;

import java.util.EnumSet;
import java.util.Set;

/**
 * What the machine accepts and how well it registers.
 *
 * @param resolutionMm smallest step of an x or y entry, mm, positive
 * @param rotationResolutionDeg smallest step of a rotation entry, degrees, positive
 * @param repeatabilityXMm standard deviation of registration from panel to panel, mm; NaN unknown
 * @param repeatabilityYMm same in y
 * @param repeatabilityRotationDeg same in rotation, degrees
 * @param accepts kinds of trim that can be entered
 */
public record Machine(
    double resolutionMm,
    double rotationResolutionDeg,
    double repeatabilityXMm,
    double repeatabilityYMm,
    double repeatabilityRotationDeg,
    Set<TrimKind> accepts) {

  public Machine {
    accepts = Set.copyOf(accepts);
  }

  /** Resolution 0.001 mm and 0.01 degrees, repeatability unknown, everything accepted. */
  public static Machine withDefaults() {
    return new Machine(
        0.001, 0.01, Double.NaN, Double.NaN, Double.NaN, EnumSet.allOf(TrimKind.class));
  }
}
