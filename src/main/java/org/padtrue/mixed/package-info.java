/**
 * What is systematic: panel transform and offsets of part types, nozzles, feeders, heads, boards,
 * fitted together, with honest standard errors.
 *
 * <p>A linear mixed model by restricted maximum likelihood (REML): fixed panel terms, random
 * offsets with a variance for each factor and axis. One pass over the placements builds cross
 * products; every candidate family is a linear map of them, so that choosing costs no further pass.
 * {@link org.padtrue.mixed.OffsetModel} is the model of positions, {@link
 * org.padtrue.mixed.RotationModel} that of rotations; the engine is {@code mixed.reml}. Lengths mm,
 * angles degrees in public records, radians in locals. Imports numeric, panel, problem, quantity;
 * Commons Math stays inside.
 */
@NullMarked
package org.padtrue.mixed;

import org.jspecify.annotations.NullMarked;
