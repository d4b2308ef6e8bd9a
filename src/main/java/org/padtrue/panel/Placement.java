package org.padtrue.panel;

import org.jspecify.annotations.Nullable;

/**
 * One nominal placement of a board.
 *
 * @param ref reference designator
 * @param part part type
 * @param pose nominal pose in the board frame
 * @param nozzle nozzle that places it, or null when the files do not say
 * @param feeder feeder that it is picked from, or null
 * @param head head, or null
 * @param order place in the placing order within the panel, NaN when not given
 * @param line line in the placement file, for messages; 0 when none
 */
public record Placement(
    String ref,
    String part,
    Pose pose,
    @Nullable String nozzle,
    @Nullable String feeder,
    @Nullable String head,
    double order,
    int line) {}
