package org.padtrue.panel;

import java.util.List;

/**
 * One measured placement of an article.
 *
 * @param panel panel name
 * @param board board of the panel
 * @param placement the nominal placement
 * @param nominal nominal pose in the panel frame
 * @param dxMm measured minus nominal along panel x, mm
 * @param dyMm measured minus nominal along panel y, mm
 * @param dRotationDeg measured minus nominal rotation, in (-180, 180]; NaN not measured
 * @param uMm standard uncertainty of dx and dy stated for this row, mm; NaN when none
 * @param uRotationDeg standard uncertainty of the rotation, degrees; NaN when none
 * @param levels what the article lists, else the placement: nozzle, feeder, ...
 * @param order ordinal in the placing order, likewise; NaN
 * @param note free text of the article, empty when none
 * @param line line in the article file
 */
public record Measured(
    String panel,
    BoardIndex board,
    Placement placement,
    Pose nominal,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    double uMm,
    double uRotationDeg,
    Levels levels,
    double order,
    String note,
    int line) {

  /** Its levels, those that are known. */
  public List<Level> named() {
    return Level.of(placement.part(), levels, board);
  }

  /** Name that is unique within the article: column/row/ref, e.g. "1/2/R7". */
  public String id() {
    return board + "/" + placement.ref();
  }
}
