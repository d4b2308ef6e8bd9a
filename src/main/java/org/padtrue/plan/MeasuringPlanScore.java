package org.padtrue.plan;

/**
 * How good a choice is; less is better.
 *
 * @param first the criterion's own number
 * @param second decides where the first ties
 */
record MeasuringPlanScore(double first, double second) {
  /** Relative differences below this are rounding. */
  static final double TIE = 1e-9;

  static final MeasuringPlanScore WORST =
      new MeasuringPlanScore(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  boolean betterThan(MeasuringPlanScore other) {
    if (Double.isInfinite(other.first)) {
      return !Double.isInfinite(first);
    }
    double margin = TIE * Math.abs(other.first);
    if (Math.abs(first - other.first) > margin) {
      return first < other.first;
    }
    return second < other.second - TIE;
  }
}
