/**
 * Measures placements in pictures: from an overview or close-ups of a populated panel to a pose, an
 * uncertainty and a status for every placement.
 *
 * <p>Frames: the panel frame (mm, x right, y up, rotation counter-clockwise) and the picture frame
 * (px, x right, y down, the centre of the first pixel at (0, 0)). Maps read from-to, as in {@code
 * panelToPicture}. The picture library (OpenCV) lives here and nowhere else, is loaded on first use
 * only, and none of its types is public. Imports quantity, problem and panel. Entry classes: {@link
 * org.padtrue.imaging.PictureDetection} (pictures to poses), {@link
 * org.padtrue.imaging.CameraCalibration} (grid pictures to a camera), {@link
 * org.padtrue.imaging.Reversal} (turned pictures to the device's own bend).
 */
@NullMarked
package org.padtrue.imaging;

import org.jspecify.annotations.NullMarked;
