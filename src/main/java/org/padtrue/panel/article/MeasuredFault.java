package org.padtrue.panel.article;

import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * A placement that an article marks as wrong, whatever was measured of it.
 *
 * @param panel panel name
 * @param board its board
 * @param placement the nominal placement
 * @param nominal nominal pose in the panel frame
 * @param kind what is wrong
 * @param said the article's own words
 * @param dxMm measured minus nominal, mm; NaN when not measured
 * @param dyMm measured minus nominal, mm; NaN when not measured
 * @param dRotationDeg measured minus nominal, degrees; NaN when not measured
 * @param line line in the article file
 */
public record MeasuredFault(
    String panel,
    BoardIndex board,
    Placement placement,
    Pose nominal,
    FaultKind kind,
    String said,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    int line) {

  /** The same on a panel of another name. */
  public MeasuredFault on(String otherPanel) {
    return new MeasuredFault(
        otherPanel, board, placement, nominal, kind, said, dxMm, dyMm, dRotationDeg, line);
  }

  /** Name that is unique within the article: column/row/ref. */
  public String id() {
    return board + "/" + placement.ref();
  }
}
