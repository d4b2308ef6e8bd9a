/**
 * Control charts of a series and when they call.
 *
 * <p>Individuals and moving range, EWMA, CUSUM, run rules; limits from a stated base period, points
 * that know their own uncertainty, average run lengths. Values in standard deviations or in the
 * unit of the series, as each says. False alarms are held over all series ({@link
 * org.padtrue.drift.chart.FamilyControl}). Imports drift.series and numeric.
 */
@NullMarked
package org.padtrue.drift.chart;

import org.jspecify.annotations.NullMarked;
