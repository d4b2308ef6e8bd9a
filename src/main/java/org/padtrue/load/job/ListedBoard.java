package org.padtrue.load.job;

import org.padtrue.load.json.JsonValue;
import org.padtrue.panel.BoardIndex;

/**
 * A board whose coordinates the job gives.
 *
 * @param index its column and row
 * @param xMm its own origin in the panel frame, mm
 * @param yMm its own origin in the panel frame, mm
 * @param turned true when it is turned by 180 degrees
 * @param place where the job says so
 */
record ListedBoard(BoardIndex index, double xMm, double yMm, boolean turned, JsonValue place) {}
