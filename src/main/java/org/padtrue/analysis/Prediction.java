package org.padtrue.analysis;

/**
 * Root mean square deviation of placements (vector length in x and y).
 *
 * @param seen as measured, used placements, mm
 * @param nextUntrimmed expected on the next panel when nothing is changed, mm
 * @param nextTrimmed expected on the next panel with the rounded trims, mm
 * @param floor what scatter alone leaves, mm
 */
public record Prediction(double seen, double nextUntrimmed, double nextTrimmed, double floor) {}
