/**
 * What is followed over time: series, their points, and what is known to have happened between
 * them.
 *
 * <p>Units are those of the series: mm, degrees, ppm, mrad; NaN means unknown. Imports panel.
 */
@NullMarked
package org.padtrue.drift.series;

import org.jspecify.annotations.NullMarked;
