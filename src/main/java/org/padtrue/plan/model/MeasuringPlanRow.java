package org.padtrue.plan.model;

/**
 * One reading of a candidate as a linear form of the unknowns, stored sparsely.
 *
 * @param at indices of the unknowns
 * @param by their factors, same length
 */
@SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
public record MeasuringPlanRow(int[] at, double[] by) {}
