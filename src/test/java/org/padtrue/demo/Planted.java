package org.padtrue.demo;

import java.util.List;
import java.util.Map;

/** What is wrong with the invented machine, on purpose. Lengths mm, angles degrees. */
final class Planted {
  /** Shift of the panel at the panel origin, registration of this one panel included. */
  static final double SHIFT_X = 0.062;

  static final double SHIFT_Y = -0.038;
  static final double ROTATION = 0.035;
  static final double SCALE_X = 480e-6;
  static final double SCALE_Y = 260e-6;

  /** Offsets in the part frame: x, y, rotation. */
  static final Map<String, double[]> TYPES =
      Map.of("SOT23", new double[] {-0.045, 0.050, 0}, "SOIC8", new double[] {0.060, -0.035, 0.6});

  static final Map<String, double[]> NOZZLES = Map.of("N2", new double[] {0.030, -0.025, 0});

  /** Whole types turned by their library. */
  static final Map<String, Integer> LIBRARY_TURN = Map.of("QFN32", 90);

  /** Standard deviation of a placement per axis. */
  static final double SCATTER = 0.018;

  static final double ROTATION_SCATTER = 0.25;

  /** Standard deviation of one reading. */
  static final double READING = 0.006;

  static final double ROTATION_READING = 0.08;

  /** Registration from panel to panel. */
  static final double REPEATABILITY = 0.012;

  static final double ROTATION_REPEATABILITY = 0.006;

  /** Placements that nobody measured and rotations that were left blank. */
  static final List<String> NOT_MEASURED = List.of("1/2/C7", "2/1/R14", "3/1/D1", "3/2/R2");

  static final List<String> NO_ROTATION = List.of("1/1/R9", "2/2/C16", "3/2/L2");

  /** Gross errors: placement and the kind by which it should be named. */
  static final Map<String, String> GROSS =
      Map.of(
          "3/1/D2", "halfTurn",
          "1/2/C14", "swappedRefs",
          "1/2/C15", "swappedRefs",
          "2/2/R16", "decimalSlip",
          "2/1/R12", "transposedDigits");

  private Planted() {}
}
