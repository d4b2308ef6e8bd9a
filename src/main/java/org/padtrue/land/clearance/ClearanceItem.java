package org.padtrue.land.clearance;

import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * One placement of a panel, for clearances. All poses in the panel frame; a pose with NaN position
 * is not known (not measured) and gives no gap; a pose with only its rotation NaN is taken at the
 * nominal rotation.
 *
 * @param id name that is unique on the panel, e.g. "1/2/R7"
 * @param part part type
 * @param nominal where it should be
 * @param actual where it was measured
 * @param afterTrim where it is predicted with the trims entered
 */
public record ClearanceItem(String id, PartType part, Pose nominal, Pose actual, Pose afterTrim) {

  /** A placement that has only been drawn so far: nominal at all times. */
  public static ClearanceItem nominalOnly(String id, PartType part, Pose nominal) {
    Pose unknown = new Pose(Double.NaN, Double.NaN, Double.NaN);
    return new ClearanceItem(id, part, nominal, unknown, nominal);
  }
}
