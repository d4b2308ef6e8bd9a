package org.padtrue.firstarticle.result;

/**
 * Standard deviation of one source.
 *
 * @param source part, nozzle, feeder, head, board, registration, scatter or measuring
 * @param axis x, y, rotation, or xy for a variance that both axes share
 * @param sd standard deviation, mm or degrees
 * @param removable an offset can take it out
 */
public record VarianceLine(String source, String axis, double sd, boolean removable) {}
