package org.padtrue.load.placement;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;

/**
 * One row of a placement file.
 *
 * @param ref reference designator
 * @param part part type
 * @param side its side, or null when the file does not say
 * @param filePose mm and degrees along the file's own axes; NaN where a part that is not fitted has
 *     no position
 * @param fitted false when the file marks it as not fitted
 * @param levels nozzle, feeder, ... as far as the file says
 * @param order ordinal, place in the placing order, or NaN
 * @param line line in the file
 */
public record PlacementRow(
    String ref,
    String part,
    @Nullable Side side,
    Pose filePose,
    boolean fitted,
    Levels levels,
    double order,
    int line) {}
