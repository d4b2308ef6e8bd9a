package org.padtrue.load.job;

import org.padtrue.load.placement.PlacementFile;
import org.padtrue.panel.BoardIndex;

/**
 * Which placement of the job a row of the placement file gives.
 *
 * @param row index in {@link PlacementFile#rows()}
 * @param board the board; 1/1 for a file of one board, which stands for all boards
 * @param placement index in the job's placements
 */
public record PlacedRow(int row, BoardIndex board, int placement) {}
