package org.padtrue.load.standard;

import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;

/**
 * One part of a board.
 *
 * @param ref reference designator
 * @param part part type: the package
 * @param value part number or value, empty when not given
 * @param side its side
 * @param pose mm and degrees in the frame of its board, seen from the top
 * @param fitted false when the parts list says that it is not populated
 * @param line line in the file
 */
public record StandardRow(
    String ref, String part, String value, Side side, Pose pose, boolean fitted, int line) {}
