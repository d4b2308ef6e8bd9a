/**
 * Robust trends: Theil and Sen's slope, Mann and Kendall's test, both for points of unequal worth.
 *
 * <p>Slopes in the unit of the series a day. Imports drift.series and numeric.
 */
@NullMarked
package org.padtrue.drift.trend;

import org.jspecify.annotations.NullMarked;
