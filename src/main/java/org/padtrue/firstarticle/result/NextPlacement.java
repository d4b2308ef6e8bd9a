package org.padtrue.firstarticle.result;

import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.panel.BoardIndex;

/**
 * What is expected of one placement on the next panel, with the trims entered.
 *
 * @param board its board
 * @param ref reference designator
 * @param deviation measured minus nominal, panel frame: scatter of placing, uncertainty of the fit
 *     and registration from panel to panel together
 */
public record NextPlacement(BoardIndex board, String ref, DeviationDistribution deviation) {
  /** column/row/ref. */
  public String id() {
    return board + "/" + ref;
  }
}
