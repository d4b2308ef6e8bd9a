package org.padtrue.load.corrected;

import org.padtrue.load.placement.PlacementFile;
import org.padtrue.panel.Pose;

/**
 * What is to be added to one row of a placement file.
 *
 * @param row index in {@link PlacementFile#rows()}
 * @param add correction, mm and degrees, in the canonical frame (x right, y up, counter-clockwise,
 *     seen from the placed side): the panel's for a file of the whole panel, else the board's
 */
public record CorrectedFileRow(int row, Pose add) {}
