/**
 * Is the measuring good enough to decide anything: repeated readings split into what the measuring
 * and what the placements do.
 *
 * <p>{@link org.padtrue.gauge.GaugeForm} is the blank form, {@link org.padtrue.gauge.GaugeStudy}
 * the evaluation (analysis of variance or REML for a crossed study). mm and degrees. Imports plan
 * (which placements to take), panel, problem; Commons Math stays inside.
 */
@NullMarked
package org.padtrue.gauge;

import org.jspecify.annotations.NullMarked;
