package org.padtrue.firstarticle.result;

/**
 * Mean residual of the placements near one quarter turn; reported, not trimmed.
 *
 * @param rotation 0, 90, 180 or 270
 * @param count placements
 * @param mean mean residual, panel frame, mm
 * @param standardErrors of the mean, mm
 */
public record Quadrant(int rotation, int count, Xy mean, Xy standardErrors) {}
