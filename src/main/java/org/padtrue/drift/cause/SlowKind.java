package org.padtrue.drift.cause;

/**
 * What the slow part of a series looks like, chosen with temperature and warm-up by one criterion.
 */
public enum SlowKind {
  /** One level. */
  STEADY,
  /** A straight line in time. */
  TREND,
  /** Levels with steps at times found. */
  STEPS,
  /** Levels with steps at known events. */
  EVENT_STEPS,
  /** A line in time with steps at times found. */
  TREND_AND_STEPS,
  /** A line in time with steps at known events. */
  TREND_AND_EVENT_STEPS;

  /** True when a line in time belongs to it. */
  public boolean hasTrend() {
    return this == TREND || this == TREND_AND_STEPS || this == TREND_AND_EVENT_STEPS;
  }

  /** True when steps at times found belong to it. */
  public boolean hasSteps() {
    return this == STEPS || this == TREND_AND_STEPS;
  }
}
