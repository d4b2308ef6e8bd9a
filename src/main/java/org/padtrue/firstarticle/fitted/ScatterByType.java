package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.TypeScatter;
import org.padtrue.panel.Factor;

/**
 * Scatter of one part type, leaning on what all types show.
 *
 * @param part name of the type
 * @param sdX scatter of placing along x, measuring taken off, mm
 * @param sdY the same along y, mm
 * @param frame panel where x and y are the panel's axes, part where they are the part's own
 * @param sdRotation degrees, NaN when no rotation was measured
 * @param residualSd residual standard deviation per axis, measuring included, mean of the axes, mm
 * @param residualSdRotation the same for rotation, degrees
 * @param degreesOfFreedom of {@code residualSd}, those lent by the other types included
 * @param rotationDegreesOfFreedom of {@code residualSdRotation}; NaN when none was measured
 */
public record ScatterByType(
    String part,
    double sdX,
    double sdY,
    String frame,
    double sdRotation,
    double residualSd,
    double residualSdRotation,
    double degreesOfFreedom,
    double rotationDegreesOfFreedom) {

  public static List<ScatterByType> of(Fits fits) {
    TypeScatter p = fits.position().scatter();
    RotationFit rotation = fits.rotation();
    TypeScatter r = rotation == null ? null : rotation.scatter();
    List<ScatterByType> out = new ArrayList<>();
    var part = fits.used().factors().get(Factor.PART);
    for (String type : part == null ? List.<String>of() : part.levels()) {
      double v = p.placing(type);
      out.add(
          new ScatterByType(
              type,
              Math.sqrt(v * p.fx()),
              Math.sqrt(v * p.fy()),
              p.axesTurn() ? "part" : "panel",
              r == null ? Double.NaN : Math.sqrt(r.placing(type)),
              Math.sqrt(p.variance(type)),
              r == null ? Double.NaN : Math.sqrt(r.variance(type)),
              p.degreesOfFreedom(type),
              r == null ? Double.NaN : r.degreesOfFreedom(type)));
    }
    return out;
  }
}
