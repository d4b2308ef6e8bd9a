package org.padtrue.enough;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Level;

/**
 * A trim that further measuring may still change.
 *
 * @param key as in {@link EnoughTerm#key()}
 * @param movesMm what measuring the rest may change by it, RMS over the placements of a panel, mm
 * @param more about how many placements more settle it; at most what is left to measure
 * @param level of what these should be; null for any, spread over the panel
 * @param sentence what to measure next and why
 */
public record EnoughOpen(
    String key, double movesMm, int more, @Nullable Level level, String sentence) {}
