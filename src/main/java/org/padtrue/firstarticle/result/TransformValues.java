package org.padtrue.firstarticle.result;

/**
 * A panel transform or its standard errors: measured = T(nominal).
 *
 * @param shiftX at the panel origin, mm
 * @param shiftY at the panel origin, mm
 * @param rotation direction of the image of +x, degrees
 * @param scaleXPpm length of the image of a unit step along +x, minus 1, ppm; NaN when invisible
 * @param scaleYPpm the same along +y
 * @param squarenessMrad angle from the image of +x to the image of +y, minus 90 degrees, mrad
 */
public record TransformValues(
    double shiftX,
    double shiftY,
    double rotation,
    double scaleXPpm,
    double scaleYPpm,
    double squarenessMrad) {}
