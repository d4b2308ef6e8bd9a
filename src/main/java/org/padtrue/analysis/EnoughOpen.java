package org.padtrue.analysis;

/**
 * A trim that further measuring may still change.
 *
 * @param key as in {@link EnoughTerm#key()}
 * @param chance the largest chance among its numbers
 * @param more about how many placements more settle it; at most what is left to measure
 * @param factor what these should be: "any" (spread over the panel), part, nozzle, feeder, head
 * @param level the part type, nozzle, ...; empty for any
 * @param sentence what to measure next and why
 */
public record EnoughOpen(
    String key, double chance, int more, String factor, String level, String sentence) {}
