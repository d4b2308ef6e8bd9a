/**
 * Where a point of the panel is in a picture, and back.
 *
 * <p>Lens, families of maps, their least-squares fit, and the report of a map. Maps read from-to,
 * as in {@code panelToPicture}; panel in mm (x right, y up, z above the board), picture in px (x
 * right, y down). Imports imaging.picture, panel, problem.
 */
@NullMarked
package org.padtrue.imaging.map;

import org.jspecify.annotations.NullMarked;
