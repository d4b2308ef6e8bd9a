package org.padtrue.analysis;

/**
 * What no offset removes.
 *
 * @param sdX scatter along panel x, measuring taken off, mm
 * @param sdY along panel y, mm
 * @param sdRotation degrees, NaN when no rotation was measured
 * @param residualSd pooled residual standard deviation per axis, measuring included (REML), mm
 * @param residualSdRotation the same for rotation, degrees
 * @param measuringSd standard uncertainty of measuring, mm, NaN unknown
 * @param degreesOfFreedom residual degrees of freedom of the position fit
 */
public record Scatter(
    double sdX,
    double sdY,
    double sdRotation,
    double residualSd,
    double residualSdRotation,
    double measuringSd,
    double degreesOfFreedom) {}
