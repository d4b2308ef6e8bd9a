package org.padtrue.analysis;

import org.padtrue.panel.OffsetFrame;

/**
 * What a trim of a level belongs to.
 *
 * @param factor part, nozzle, feeder, head or board
 * @param level its name
 * @param frame the frame in which it acts
 */
record LevelKey(String factor, String level, OffsetFrame frame) {}
