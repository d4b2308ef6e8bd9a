package org.padtrue.demo;

import java.util.Map;

/** What drifts on the invented machine of the history, on purpose. Lengths mm, angles degrees. */
final class PlantedHistory {
  /** Three weeks of five days, two shifts, four articles a shift. */
  static final int ARTICLES = 120;

  static final int WEEKS = 3;

  static final double SHIFT_X = 0.020;
  static final double SHIFT_Y = -0.015;
  static final double ROTATION = 0.010;

  /** Scale at the beginning, ppm at {@link #REFERENCE_C}. */
  static final double SCALE_X_PPM = 150;

  static final double SCALE_Y_PPM = 60;

  /** Creep of scale x alone, ppm per day. */
  static final double CREEP_PPM_PER_DAY = 6;

  /** Both scales with temperature, ppm per kelvin. */
  static final double PPM_PER_KELVIN = 16;

  static final double REFERENCE_C = 24;

  /** Settling of shift y after the machine was started. */
  static final double WARM_UP = 0.035;

  static final double WARM_UP_MINUTES = 25;

  /** Nozzle N2 steps along its x from this article on (0-based). */
  static final int NOZZLE_FROM = 72;

  static final double NOZZLE_STEP = 0.025;
  static final String NOZZLE = "N2";

  /** A type that is off from the start, and is trimmed. */
  static final String TYPE = "SOIC8";

  static final double[] TYPE_OFFSET = {0.060, -0.035, 0.6};

  /** Trims entered before this article (0-based), values that were added. */
  static final int TRIMMED_FROM = 64;

  static final Map<String, Double> TRIMS =
      Map.of(
          "scaleXPpm", -200.0,
          "part SOIC8 x", -0.06,
          "part SOIC8 y", 0.04,
          "part SOIC8 rotation", -0.6);

  /** Standard deviation of a placement per axis, of a reading, of rotations. */
  static final double SCATTER = 0.018;

  static final double READING = 0.006;
  static final double ROTATION_SCATTER = 0.25;
  static final double ROTATION_READING = 0.08;

  /** Registration from panel to panel. */
  static final double REPEATABILITY = 0.012;

  static final double ROTATION_REPEATABILITY = 0.006;

  private PlantedHistory() {}
}
