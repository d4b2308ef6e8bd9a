package org.padtrue.panel;

/**
 * A row of the placement file that is listed but not placed.
 *
 * @param ref reference designator
 * @param part part type
 * @param reason why it takes no part
 * @param line line in the placement file
 */
public record Unplaced(String ref, String part, Reason reason, int line) {
  /** Why a row takes no part in the job. */
  public enum Reason {
    /** On the side that this job does not place. */
    OTHER_SIDE,
    /** Marked as not fitted. */
    NOT_FITTED,
    /** Parked far off the board. */
    PARKED
  }
}
