/**
 * What the camera or scanner does to a picture: the lens from pictures of a grid, the device's own
 * bend from turned pictures of one panel.
 *
 * <p>Entry classes: {@link org.padtrue.imaging.camera.CameraCalibration}, {@link
 * org.padtrue.imaging.camera.Reversal}. mm and px. Imports imaging.map and imaging.picture.
 */
@NullMarked
package org.padtrue.imaging.camera;

import org.jspecify.annotations.NullMarked;
