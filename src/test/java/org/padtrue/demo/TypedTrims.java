package org.padtrue.demo;

import java.util.Map;

/**
 * What was typed into the invented machine after the first article: the trim sheet of the sample,
 * copied by hand as an operator would, with one slip. Lengths mm, angles degrees; all values to
 * ADD.
 */
final class TypedTrims {
  static final double SHIFT_X = -0.060;
  static final double SHIFT_Y = 0.040;
  static final double ROTATION = -0.035;
  static final double SCALE_X = -451e-6;
  static final double SCALE_Y = -209e-6;

  /** Angle between the axes, radians. */
  static final double SQUARENESS = 0;

  /** In the part's own frame: x, y, rotation. */
  static final Map<String, double[]> TYPES =
      Map.of(
          "SOT23", new double[] {0.030, -0.050, -0.06},
          "QFN32", new double[] {0, 0, -90},
          "SOIC8", new double[] {-0.060, 0.040, -0.64});

  static final Map<String, double[]> NOZZLES = Map.of("N2", new double[] {-0.030, 0.030, 0});

  /** The type whose three values went in with the wrong sign. */
  static final String SLIP = "SOIC8";

  private TypedTrims() {}

  /** The type's trim as it was typed. */
  static double[] type(String name) {
    double[] t = TYPES.getOrDefault(name, new double[3]);
    double sign = name.equals(SLIP) ? -1 : 1;
    return new double[] {sign * t[0], sign * t[1], sign * t[2]};
  }

  /** Where the machine then aims: the programmed pose with every trim in it. */
  static double[] aim(double x, double y, double rotation, String type, String nozzle) {
    double[] t = type(type);
    double[] n = NOZZLES.getOrDefault(nozzle, new double[3]);
    double phi = Math.toRadians(ROTATION);
    double theta = Math.toRadians(rotation);
    double ox = t[0] + n[0];
    double oy = t[1] + n[1];
    double sx = (1 + SCALE_X) * x;
    double sy = (1 + SCALE_Y) * y;
    double up = phi + SQUARENESS;
    return new double[] {
      SHIFT_X
          + Math.cos(phi) * sx
          - Math.sin(up) * sy
          + Math.cos(theta) * ox
          - Math.sin(theta) * oy,
      SHIFT_Y
          + Math.sin(phi) * sx
          + Math.cos(up) * sy
          + Math.sin(theta) * ox
          + Math.cos(theta) * oy,
      rotation + ROTATION + t[2] + n[2]
    };
  }
}
