package org.padtrue.panel;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/**
 * What the machine accepts and how well it registers.
 *
 * @param resolutionMm smallest step of an x or y entry, mm, positive
 * @param rotationResolutionDeg smallest step of a part's rotation entry, degrees, positive
 * @param panelRotationResolutionDeg smallest step of the panel's rotation entry, degrees, positive
 * @param repeatabilityXMm standard deviation of registration from panel to panel, mm; NaN unknown
 * @param repeatabilityYMm same in y
 * @param repeatabilityRotationDeg same in rotation, degrees
 * @param location how the machine locates a panel: what repeatability is usual where none is stated
 * @param accepts kinds of trim that can be entered
 * @param nozzleDiametersMm outer diameters of nozzles by name, mm; those that are known
 */
public record Machine(
    double resolutionMm,
    double rotationResolutionDeg,
    double panelRotationResolutionDeg,
    double repeatabilityXMm,
    double repeatabilityYMm,
    double repeatabilityRotationDeg,
    PanelLocation location,
    Set<TrimKind> accepts,
    Map<String, Double> nozzleDiametersMm) {

  public Machine {
    accepts = Set.copyOf(accepts);
    nozzleDiametersMm = Map.copyOf(nozzleDiametersMm);
  }

  /** The finest panel rotation, a panel on its fiducials. */
  public Machine(
      double resolutionMm,
      double rotationResolutionDeg,
      double repeatabilityXMm,
      double repeatabilityYMm,
      double repeatabilityRotationDeg,
      Set<TrimKind> accepts) {
    this(
        resolutionMm,
        rotationResolutionDeg,
        PANEL_ROTATION_RESOLUTION_DEG,
        repeatabilityXMm,
        repeatabilityYMm,
        repeatabilityRotationDeg,
        PanelLocation.FIDUCIALS,
        accepts,
        Map.of());
  }

  /** The same with other repeatabilities: x, y (mm), rotation (degrees). */
  public Machine withRepeatability(double xMm, double yMm, double rotationDeg) {
    return new Machine(
        resolutionMm,
        rotationResolutionDeg,
        panelRotationResolutionDeg,
        xMm,
        yMm,
        rotationDeg,
        location,
        accepts,
        nozzleDiametersMm);
  }

  private static final double PANEL_ROTATION_RESOLUTION_DEG = 0.001;

  /**
   * Resolution 0.001 mm, 0.01 degrees of a part and 0.001 of the panel, located by fiducials,
   * repeatability unknown, everything accepted.
   */
  public static Machine withDefaults() {
    return new Machine(
        0.001, 0.01, Double.NaN, Double.NaN, Double.NaN, EnumSet.allOf(TrimKind.class));
  }
}
