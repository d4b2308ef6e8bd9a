package org.padtrue.firstarticle.decide;

import org.padtrue.panel.Factor;
import org.padtrue.panel.OffsetFrame;

/**
 * What a trim of a level belongs to.
 *
 * @param factor the factor
 * @param level its name
 * @param frame the frame in which it acts
 */
record LevelKey(Factor factor, String level, OffsetFrame frame) {}
