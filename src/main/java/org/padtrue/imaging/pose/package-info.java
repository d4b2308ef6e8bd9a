/**
 * From the outline of a part to its pose in a picture: coarse search, fit to edges, fit to pixels,
 * and whether to believe it.
 *
 * <p>Poses in the panel frame (mm, degrees), pictures in px. Imports imaging.map, imaging.picture,
 * panel.
 */
@NullMarked
package org.padtrue.imaging.pose;

import org.jspecify.annotations.NullMarked;
