package org.padtrue.drift.cause;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.series.KnownEvent;

/**
 * A step of the state.
 *
 * <p>Values are in the unit of the series.
 *
 * @param at time of the first article after it
 * @param previous time of the last article before it
 * @param index of the first point after it
 * @param size state after minus before, unit of the series
 * @param standardError of the size
 * @param event the known event that lies between, or null
 */
public record Change(
    Instant at,
    Instant previous,
    int index,
    double size,
    double standardError,
    @Nullable KnownEvent event) {}
