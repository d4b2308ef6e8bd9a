/**
 * Does it drift: series over time, weighted by what each point is worth.
 *
 * <p>{@link org.padtrue.drift.DriftAnalysis} takes each series apart and holds false alarms over
 * the whole family. Series and events are in {@code drift.series}, control charts in {@code
 * drift.chart}, trends in {@code drift.trend}, what moves a series in {@code drift.cause}, hints at
 * the cause in {@code drift.hint}. Every point carries its own standard error. Units are those of
 * the series: mm, degrees, ppm, mrad; time in days where a slope needs one, minutes for warm-up,
 * degrees Celsius for temperature. NaN means unknown. Imports numeric and panel.
 */
@NullMarked
package org.padtrue.drift;

import org.jspecify.annotations.NullMarked;
