package org.padtrue.load.corrected;

import org.padtrue.load.placement.PlacementFile;
import org.padtrue.panel.Pose;

/**
 * What is to be added to one row of a placement file.
 *
 * @param row index in {@link PlacementFile#rows()}
 * @param add correction, mm and degrees, in the canonical frame (x right, y up, counter-clockwise,
 *     seen from the placed side): the panel's for a file of the whole panel, else the board's
 * @param stepMm x and y get the decimals of this step where the machine's resolution is coarser,
 *     mm; NaN = the machine's
 */
public record CorrectedFileRow(int row, Pose add, double stepMm) {
  /** A row whose numbers get the decimals of the machine's resolution. */
  public CorrectedFileRow(int row, Pose add) {
    this(row, add, Double.NaN);
  }
}
