/**
 * Parts that are known by their look, learnt from a placed sample, in place of a drawn outline.
 *
 * <p>A look is grey values on a grid in the part frame, mm. Imports imaging.pose and below.
 */
@NullMarked
package org.padtrue.imaging.taught;

import org.jspecify.annotations.NullMarked;
