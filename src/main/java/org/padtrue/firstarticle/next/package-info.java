/**
 * What the next panel will show: systematic deviation and scatter at every placement, risk,
 * clearances, with the trims entered and without.
 *
 * <p>mm and degrees, panel frame; probabilities from 0 to 1. Imports firstarticle.fitted and land.
 */
@NullMarked
package org.padtrue.firstarticle.next;

import org.jspecify.annotations.NullMarked;
