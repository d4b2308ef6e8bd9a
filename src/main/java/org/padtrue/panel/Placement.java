package org.padtrue.panel;

import java.util.List;

/**
 * One nominal placement of a board.
 *
 * @param ref reference designator
 * @param part part type
 * @param pose nominal pose in the board frame
 * @param levels what the files list of it: the nozzle that places it, its feeder, ...
 * @param order ordinal, place in the placing order within the panel, NaN when not given
 * @param line line in the placement file, for messages; 0 when none
 */
public record Placement(String ref, String part, Pose pose, Levels levels, double order, int line) {

  /** Its levels that the list tells, whatever its board. */
  public List<Level> named() {
    return Level.of(part, levels, null);
  }
}
