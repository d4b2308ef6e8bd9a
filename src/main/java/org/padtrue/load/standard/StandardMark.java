package org.padtrue.load.standard;

import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Side;

/**
 * A fiducial that the file names as one.
 *
 * @param side the side on which it is seen
 * @param fiducial place seen from the top, mm
 */
public record StandardMark(Side side, Fiducial fiducial) {}
