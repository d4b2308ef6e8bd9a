package org.padtrue.panel;

/**
 * Rectangle in the part frame (part at rotation 0), sides along the part's axes.
 *
 * @param xMm centre, mm
 * @param yMm centre, mm
 * @param lengthMm side along the part's x, mm, positive
 * @param widthMm side along the part's y, mm, positive
 */
public record Rect(double xMm, double yMm, double lengthMm, double widthMm) {}
