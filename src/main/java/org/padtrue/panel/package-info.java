/**
 * The panel: boards, placements, part types, fiducials, machine, and the factors and levels that
 * they are grouped by. What was measured is in {@code panel.article}.
 *
 * <p>Everything here is in the canonical frame: millimetres, degrees, x right, y up, rotation
 * counter-clockwise positive, seen from the side being placed. Readers turn the user's file into
 * this frame once; nothing behind them thinks about y-down files or mirrored bottoms again.
 * Nullable text means 'the files do not say'; NaN means 'not measured' or 'not given'. Imports
 * quantity and problem only. Entry class: {@link org.padtrue.panel.Job}.
 */
@NullMarked
package org.padtrue.panel;

import org.jspecify.annotations.NullMarked;
