/**
 * Will it sit on its lands: how far terminations reach beyond them, what is allowed, what is left.
 *
 * <p>{@link org.padtrue.land.Overhang} measures how far terminations reach beyond their lands,
 * {@link org.padtrue.land.AcceptanceLimits} holds what is allowed by kind of joint and class,
 * {@link org.padtrue.land.LandFit} is the least distance that is left. {@code land.risk} has the
 * probabilities, {@code land.clearance} the neighbours. Millimetres and degrees; the part frame
 * unless a name says panel. The published limits are written for soldered joints: before reflow
 * they are a guide, and acceptance follows the customer's contract and the current standard.
 * Imports quantity, problem, panel.
 */
@NullMarked
package org.padtrue.land;

import org.jspecify.annotations.NullMarked;
