package org.padtrue.panel;

import org.jspecify.annotations.Nullable;

/**
 * A row of the placement file that is listed but not placed.
 *
 * @param ref reference designator
 * @param part part type
 * @param reason why it takes no part
 * @param line line in the placement file
 * @param pose where its lands lie bare, board frame; null unless it is merely not fitted
 */
public record Unplaced(String ref, String part, Reason reason, int line, @Nullable Pose pose) {
  /** Why a row takes no part in the job. */
  public enum Reason {
    /** On the side that this job does not place. */
    OTHER_SIDE,
    /** Marked as not fitted. */
    NOT_FITTED,
    /** Parked far off the board. */
    PARKED,
    /** A drawing, hole or placeholder: no part is placed there. */
    DRAWING
  }
}
