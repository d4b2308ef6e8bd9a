package org.padtrue.plan;

/** What makes one choice of placements better than another. */
enum MeasuringPlanCriterion {
  /**
   * Least mean square of what is still not known, over every placement of the panel: what the next
   * panel keeps of its systematic deviations (I-optimal).
   */
  MEAN,
  /** Least largest variance over the terms; where that ties, the largest information. */
  WORST,
  /** Least volume of the joint uncertainty: largest determinant of the information (D-optimal). */
  DETERMINANT,
  /** Least sum of the terms' variances (A-optimal when the terms are the unknowns). */
  TRACE
}
