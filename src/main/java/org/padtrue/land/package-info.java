/**
 * Will it sit on its lands, and clear its neighbours: overhang, margin, risk, capability,
 * clearance.
 *
 * <p>{@link org.padtrue.land.Overhang} measures how far terminations reach beyond their lands,
 * {@link org.padtrue.land.AcceptanceLimits} holds what is allowed by kind of joint and class,
 * {@link org.padtrue.land.LandFit} is the least distance that is left, {@link
 * org.padtrue.land.Risk} the probability of being outside, {@link org.padtrue.land.Capability} the
 * short-term indices, {@link org.padtrue.land.Clearance} the gaps between envelopes. Millimetres
 * and degrees throughout; the part frame unless a name says panel. The published limits are written
 * for soldered joints: before reflow they are a guide, and acceptance follows the customer's
 * contract and the current standard. Imports quantity, problem, panel; Commons Math for
 * distributions and integration, JTS for the spatial index and distances. Entry classes: {@link
 * org.padtrue.land.LandFit}, {@link org.padtrue.land.Clearance}.
 */
@NullMarked
package org.padtrue.land;

import org.jspecify.annotations.NullMarked;
