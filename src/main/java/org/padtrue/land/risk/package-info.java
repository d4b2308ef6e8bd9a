/**
 * How probable it is that a placement stands outside its limits, and how capable the placing is.
 *
 * <p>{@link org.padtrue.land.risk.Risk} is the probability of one placement, {@link
 * org.padtrue.land.risk.ExpectedOutside} the number on a panel, {@link
 * org.padtrue.land.risk.Capability} the short-term indices, {@link
 * org.padtrue.land.risk.ToleranceFactor} the factors of statistical tolerance intervals. mm and
 * degrees, part frame; probabilities from 0 to 1. Imports land, numeric, panel; Commons Math stays
 * inside.
 */
@NullMarked
package org.padtrue.land.risk;

import org.jspecify.annotations.NullMarked;
