package org.padtrue.plan.model;

/**
 * A trim as a function of the unknowns that can be known.
 *
 * @param name as people read it
 * @param column its own unknown
 * @param at unknowns it is made of
 * @param by their weights
 */
@SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
public record MeasuringPlanTerm(String name, int column, int[] at, double[] by) {}
