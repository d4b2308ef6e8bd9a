package org.padtrue.mixed;

/**
 * Estimated transform of one panel, measured = T(nominal).
 *
 * @param shiftXMm at the panel origin
 * @param shiftYMm at the panel origin
 * @param rotationDeg direction of the image of +x
 * @param scaleXPpm length of the image of a unit step along +x, minus 1
 * @param scaleYPpm the same along +y
 * @param squarenessMrad angle between them minus 90 degrees
 * @param se standard errors of the six, in this order: mm, mm, degrees, ppm, ppm, mrad
 * @param centroidShiftMm shift at the centroid of what was measured
 * @param centroidCov covariance of that shift (xx, xy, yy), mm^2
 * @param centroidDf degrees of freedom of that shift
 * @param rotationSeDeg standard error of the rotation
 * @param rotationDf its degrees of freedom
 */
public record PanelEstimate(
    double shiftXMm,
    double shiftYMm,
    double rotationDeg,
    double scaleXPpm,
    double scaleYPpm,
    double squarenessMrad,
    double[] se,
    double[] centroidShiftMm,
    double[] centroidCov,
    double centroidDf,
    double rotationSeDeg,
    double rotationDf) {}
