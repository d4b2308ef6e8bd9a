/**
 * Will it clear its neighbours: gaps between outlines whose heights overlap, as they stand and as
 * they may stand on the next panel.
 *
 * <p>{@link org.padtrue.land.clearance.Clearance} finds the pairs, {@link
 * org.padtrue.land.clearance.TouchRisk} the probability that two touch, {@link
 * org.padtrue.land.clearance.ClearingShift} the shortest shift that parts them. mm and degrees in
 * the panel frame. Imports panel, numeric; JTS (spatial index, distances) lives here and nowhere
 * else.
 */
@NullMarked
package org.padtrue.land.clearance;

import org.jspecify.annotations.NullMarked;
