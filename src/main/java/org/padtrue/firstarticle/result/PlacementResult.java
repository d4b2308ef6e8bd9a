package org.padtrue.firstarticle.result;

import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Pose;

/**
 * One nominal placement of a panel and what became of it.
 *
 * @param panel panel
 * @param board board
 * @param ref reference designator
 * @param part part type
 * @param nominal nominal pose, panel frame
 * @param deviation measured minus nominal, panel frame; NaN not measured
 * @param residual deviation minus model
 * @param afterTrim deviation that this same placement would have had with the trims entered
 * @param margin least distance that is left before a limit, mm; NaN not judged
 * @param marginAfterTrim the same after trim, mm
 * @param probabilityOutside probability that this placement of a next panel is outside, untrimmed
 * @param probabilityOutsideAfterTrim the same probability with the trims entered
 * @param verdict within, outside, notJudged or notMeasured
 * @param used true when it took part in the fit
 */
public record PlacementResult(
    String panel,
    BoardIndex board,
    String ref,
    String part,
    Pose nominal,
    Xyr deviation,
    Xyr residual,
    Xyr afterTrim,
    double margin,
    double marginAfterTrim,
    double probabilityOutside,
    double probabilityOutsideAfterTrim,
    String verdict,
    boolean used) {

  /** Name within the panel: column/row/ref. */
  public String id() {
    return board + "/" + ref;
  }
}
