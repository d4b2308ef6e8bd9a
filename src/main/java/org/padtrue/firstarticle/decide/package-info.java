/**
 * What to change and what to leave: tests, limits of no adjustment, rounding, what each trim takes
 * out, and the guard that no sheet is worse than leaving everything alone.
 *
 * <p>Values to ADD, in mm, degrees, ppm, mrad. Entry class: {@link
 * org.padtrue.firstarticle.decide.Decisions}. Imports firstarticle.next, firstarticle.fitted, trim.
 */
@NullMarked
package org.padtrue.firstarticle.decide;

import org.jspecify.annotations.NullMarked;
