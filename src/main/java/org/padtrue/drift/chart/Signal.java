package org.padtrue.drift.chart;

import java.time.Instant;

/**
 * A chart that left its limits.
 *
 * @param at time of the first point outside
 * @param index its index
 * @param chart individuals, movingRange, ewma or cusum
 * @param since when the run that led there began, as the chart sees it
 * @param sentence what was seen
 */
public record Signal(Instant at, int index, String chart, Instant since, String sentence) {}
