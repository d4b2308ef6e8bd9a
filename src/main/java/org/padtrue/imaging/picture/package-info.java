/**
 * Pictures as numbers: reading files, grey values between pixels, edges, spots and round marks to a
 * fraction of a pixel.
 *
 * <p>px, x right, y down, the centre of the first pixel at (0, 0); grey values 0 to 255. Imports
 * problem; knows neither panel nor part.
 */
@NullMarked
package org.padtrue.imaging.picture;

import org.jspecify.annotations.NullMarked;
