package org.padtrue.imaging.map;

import org.padtrue.panel.BoardIndex;

/**
 * What became of one fiducial.
 *
 * @param name unique within the panel, with its board where there are several
 * @param fiducial the job's own name of it
 * @param board its board; 1/1 for panel fiducials
 * @param used whether the map rests on it
 * @param xMm measured, panel frame; NaN when not found
 * @param yMm measured
 * @param uMm standard uncertainty of each coordinate; NaN
 * @param residualMm distance from where the map has it; NaN
 * @param note shape, or why it was not used
 */
public record MarkReport(
    String name,
    String fiducial,
    BoardIndex board,
    boolean used,
    double xMm,
    double yMm,
    double uMm,
    double residualMm,
    String note) {}
