package org.padtrue.panel;

/**
 * Allowed deviation, plus or minus, in the part frame.
 *
 * @param xMm mm
 * @param yMm mm
 * @param rotationDeg degrees
 */
public record Tolerance(double xMm, double yMm, double rotationDeg) {}
