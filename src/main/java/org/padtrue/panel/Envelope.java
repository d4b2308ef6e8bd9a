package org.padtrue.panel;

/**
 * Largest outline during assembly, leads and pick-up cap included, centred on the part.
 *
 * @param lengthMm along the part's x, mm
 * @param widthMm along the part's y, mm
 * @param zMinMm lowest point above the board, mm
 * @param zMaxMm highest point above the board, mm
 */
public record Envelope(double lengthMm, double widthMm, double zMinMm, double zMaxMm) {}
