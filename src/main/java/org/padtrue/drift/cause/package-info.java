/**
 * What moves a series: steps, a line in time, temperature, warm-up, told apart by one criterion.
 *
 * <p>{@link org.padtrue.drift.cause.CauseSearch} chooses, {@link
 * org.padtrue.drift.cause.CauseModel} fits. Unit of the series; days, degrees Celsius, minutes
 * since the start. Imports drift.series, drift.trend and numeric.
 */
@NullMarked
package org.padtrue.drift.cause;

import org.jspecify.annotations.NullMarked;
