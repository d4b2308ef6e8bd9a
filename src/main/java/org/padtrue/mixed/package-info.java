/**
 * What is systematic: panel transform and offsets of part types, nozzles, feeders, heads, boards,
 * fitted together, with honest standard errors.
 *
 * <p>A linear mixed model by restricted maximum likelihood (REML): fixed panel terms, random
 * offsets with a variance for each factor and axis. One pass over the placements builds cross
 * products ({@link org.padtrue.mixed.CrossProducts}); every candidate family is a linear map of
 * them, so that choosing costs no further pass. {@link org.padtrue.mixed.RandomEffects} is the
 * general engine (any set of crossed factors), {@link org.padtrue.mixed.OffsetModel} the model of
 * positions, {@link org.padtrue.mixed.RotationModel} that of rotations. Lengths mm, angles degrees
 * in public records, radians in locals. Imports panel, problem, quantity; Commons Math stays
 * inside.
 */
@NullMarked
package org.padtrue.mixed;

import org.jspecify.annotations.NullMarked;
