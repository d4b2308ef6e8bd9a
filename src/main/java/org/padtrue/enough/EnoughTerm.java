package org.padtrue.enough;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Level;

/**
 * One number of the trim sheet while an article is still being measured.
 *
 * @param name in the words of the analysis: "shift x", "rotation", "scale x", "squareness", "array
 *     column x", "common x", "rotationZero", "part R0603 x", "nozzle N2 rotation"
 * @param key what it is called where single trims are named: registration, rotation, scale, array,
 *     common, rotationZero, "part R0603", ...
 * @param level the level that it is of; null for the terms of the panel
 * @param estimate systematic deviation seen so far (a correction is its negative); in {@code unit};
 *     NaN while nothing can be said
 * @param halfWidth half the width of its 95 % interval, in {@code unit}; NaN while nothing can be
 *     said
 * @param unit mm, deg, ppm or mrad
 * @param movesMm root mean square, over the placements of a panel, of what measuring the rest may
 *     change by this number, mm
 * @param measured placements that show it so far
 * @param available placements of the panel that could show it
 */
public record EnoughTerm(
    String name,
    String key,
    @Nullable Level level,
    double estimate,
    double halfWidth,
    String unit,
    double movesMm,
    int measured,
    int available) {}
