package org.padtrue.enough;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Level;

/**
 * A trim that further measuring may still change.
 *
 * @param key as in {@link EnoughTerm#key()}
 * @param chance the largest chance among its numbers
 * @param more about how many placements more settle it; at most what is left to measure
 * @param level of what these should be; null for any, spread over the panel
 * @param sentence what to measure next and why
 */
public record EnoughOpen(
    String key, double chance, int more, @Nullable Level level, String sentence) {}
