package org.padtrue.firstarticle.fitted;

import java.util.List;

/**
 * What no offset removes.
 *
 * @param sdX scatter along panel x, measuring taken off, mean over what was measured, mm
 * @param sdY along panel y, mm
 * @param sdRotation degrees, NaN when no rotation was measured
 * @param residualSd pooled residual standard deviation per axis, measuring included (REML), mm
 * @param residualSdRotation the same for rotation, degrees
 * @param measuringSd standard uncertainty of measuring, mm, NaN unknown
 * @param degreesOfFreedom residual degrees of freedom of the position fit
 * @param types the same by part type; empty in analyses of earlier versions
 */
public record Scatter(
    double sdX,
    double sdY,
    double sdRotation,
    double residualSd,
    double residualSdRotation,
    double measuringSd,
    double degreesOfFreedom,
    List<ScatterByType> types) {
  public Scatter {
    types = List.copyOf(types);
  }

  /** One scatter for all part types. */
  public Scatter(
      double sdX,
      double sdY,
      double sdRotation,
      double residualSd,
      double residualSdRotation,
      double measuringSd,
      double degreesOfFreedom) {
    this(
        sdX,
        sdY,
        sdRotation,
        residualSd,
        residualSdRotation,
        measuringSd,
        degreesOfFreedom,
        List.of());
  }

  /** Residual standard deviation of a part type, measuring included, mm. */
  public double residualSd(String part) {
    for (ScatterByType t : types) {
      if (t.part().equals(part)) {
        return t.residualSd();
      }
    }
    return residualSd;
  }

  /** The same of rotations, degrees. */
  public double residualSdRotation(String part) {
    for (ScatterByType t : types) {
      if (t.part().equals(part) && !Double.isNaN(t.residualSdRotation())) {
        return t.residualSdRotation();
      }
    }
    return residualSdRotation;
  }
}
