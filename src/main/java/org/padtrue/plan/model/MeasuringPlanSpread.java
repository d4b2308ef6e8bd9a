package org.padtrue.plan.model;

/**
 * What a plan assumes of the terms of the whole panel, as standard deviations: what they do half a
 * diagonal from the centre, mm.
 *
 * <p>All are in mm.
 *
 * @param shift shift of the panel
 * @param linear rotation, scale and squareness
 * @param array array steps
 * @param common offset that all parts share
 */
public record MeasuringPlanSpread(double shift, double linear, double array, double common) {
  /** Nothing: standard errors are those of the readings alone. */
  public static final MeasuringPlanSpread NONE =
      new MeasuringPlanSpread(
          MeasuringPlanModel.WIDE,
          MeasuringPlanModel.WIDE,
          MeasuringPlanModel.WIDE,
          MeasuringPlanModel.WIDE);

  /**
   * What a machine that has been set up usually leaves: common practice, from memory, on the low
   * side, so that a plan does not rest on large terms that are easily found.
   */
  public static final MeasuringPlanSpread USUAL = new MeasuringPlanSpread(0.03, 0.01, 0.01, 0.01);

  double of(MeasuringPlanFactor f) {
    return switch (f.kind()) {
      case SHIFT -> shift;
      case ROTATION, SCALE_X, SCALE_Y, SQUARENESS -> linear;
      case ARRAY -> array;
      default -> common;
    };
  }
}
