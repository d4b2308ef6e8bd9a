/**
 * Measures placements in pictures: from an overview or close-ups of a populated panel to a pose, an
 * uncertainty and a status for every placement.
 *
 * <p>{@link org.padtrue.imaging.PictureDetection} and {@link org.padtrue.imaging.CloseUpDetection}
 * are the entries; they lay a picture onto the panel ({@code imaging.registration}), read each part
 * ({@code imaging.reader}) and draw what they saw. Frames: the panel frame (mm, x right, y up,
 * rotation counter-clockwise) and the picture frame (px, x right, y down, the centre of the first
 * pixel at (0, 0)). The picture library (OpenCV) lives below here and nowhere else, is loaded on
 * first use only, and none of its types is public. Imports quantity, problem and panel.
 */
@NullMarked
package org.padtrue.imaging;

import org.jspecify.annotations.NullMarked;
