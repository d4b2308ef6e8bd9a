/**
 * Nominal data of a board as an open standard gives it, whatever the standard.
 *
 * <p>Lengths mm, angles degrees counter-clockwise, all as seen from the top; a bottom part's
 * rotation is that of a part first mirrored about the y axis, then turned. {@link
 * org.padtrue.load.standard.StandardFile} tells by content which reader a file needs. Imports
 * quantity, problem, panel and {@code load.text}.
 */
@NullMarked
package org.padtrue.load.standard;

import org.jspecify.annotations.NullMarked;
