/**
 * Reads one part by whatever is known of it, its outline or a taught look, and learns looks from
 * good samples.
 *
 * <p>Entry classes: {@link org.padtrue.imaging.reader.PoseReader}, {@link
 * org.padtrue.imaging.reader.Teaching}. Panel frame, mm and degrees. Imports imaging.taught and
 * below.
 */
@NullMarked
package org.padtrue.imaging.reader;

import org.jspecify.annotations.NullMarked;
