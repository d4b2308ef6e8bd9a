/**
 * What a trim may be: steps the machine accepts, the band within which a change is not worth
 * entering, how boldly an estimate is trimmed.
 *
 * <p>mm and degrees. Imports nothing of ours.
 */
@NullMarked
package org.padtrue.trim;

import org.jspecify.annotations.NullMarked;
