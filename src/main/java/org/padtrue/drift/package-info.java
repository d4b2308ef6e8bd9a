/**
 * Does it drift: series over time, weighted by what each point is worth.
 *
 * <p>Charts (individuals, moving range, EWMA, CUSUM) with limits from a stated base period; trend
 * (Theil-Sen, Mann-Kendall), temperature, warm-up, change points, steps after service, forecast,
 * and hints at the cause. Every point carries its own standard error: its variance is that of the
 * process plus its own. False alarms are controlled over the whole family of series ({@link
 * org.padtrue.drift.FamilyControl}).
 *
 * <p>Units are those of the series: mm, degrees, ppm, mrad; time in days where a slope needs one,
 * minutes for warm-up, degrees Celsius for temperature. NaN means unknown. Imports nothing of ours;
 * Commons Math inside, never in a signature. Entry class: {@link org.padtrue.drift.DriftAnalysis}.
 */
@NullMarked
package org.padtrue.drift;

import org.jspecify.annotations.NullMarked;
