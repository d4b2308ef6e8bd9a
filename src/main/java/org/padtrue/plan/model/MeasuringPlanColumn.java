package org.padtrue.plan.model;

/**
 * One unknown of the plan's model.
 *
 * @param name in the trade's words: "shift x", "part R0603 y", "nozzle N2 x"
 * @param factor its kind
 * @param level the level's name; empty for the terms that are no level of a factor
 * @param priorSd assumed spread in the unit of the response
 * @param parent index of the term that the sum over the factor's levels is, or -1: offsets of all
 *     types together are a common offset
 * @param unit native unit of the trim: mm, deg, ppm or mrad
 * @param unitsPerOne native units in one unit of the response
 */
public record MeasuringPlanColumn(
    String name,
    MeasuringPlanFactor factor,
    String level,
    double priorSd,
    int parent,
    String unit,
    double unitsPerOne) {}
