package org.padtrue.imaging.pose;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * What the pictures say about one expected placement.
 *
 * @param panel panel name
 * @param board its board
 * @param placement nominal placement
 * @param nominal nominal pose, panel frame
 * @param status found, doubtful, missing ...
 * @param pose measured pose, panel frame; null unless found or doubtful
 * @param uMm standard uncertainty of x and of y, fit, map and parallax included, mm; NaN
 * @param uRotationDeg standard uncertainty of the rotation, degrees; NaN
 * @param score 0 to 1, share of the outline that was seen
 * @param picture index of the picture it was read in, from 0; -1 when in none
 * @param xPx where the part's middle lies in that picture, px; NaN
 * @param yPx likewise
 * @param note one sentence, or empty
 */
public record PlacementReading(
    String panel,
    BoardIndex board,
    Placement placement,
    Pose nominal,
    ReadingStatus status,
    @Nullable Pose pose,
    double uMm,
    double uRotationDeg,
    double score,
    int picture,
    double xPx,
    double yPx,
    String note) {

  /** Share of the edges of lands from which on they are said to lie bare. */
  public static final double LANDS_SEEN = 0.6;

  /** Name that is unique within the panel, e.g. "1/2/R7". */
  public String id() {
    return board + "/" + placement.ref();
  }

  /** Whether the picture shows that this placement belongs here: its part, or its bare lands. */
  public boolean belongs() {
    return status == ReadingStatus.FOUND || status == ReadingStatus.MISSING && score >= LANDS_SEEN;
  }

  /** Whether it was looked for: its geometry is known and its place lies in the picture. */
  public boolean lookedFor() {
    return status != ReadingStatus.NO_GEOMETRY && status != ReadingStatus.OUT_OF_PICTURE;
  }

  PlacementReading with(ReadingStatus s, String why) {
    return new PlacementReading(
        panel,
        board,
        placement,
        nominal,
        s,
        pose,
        uMm,
        uRotationDeg,
        score,
        picture,
        xPx,
        yPx,
        why);
  }

  public PlacementReading at(Pose p, double u) {
    return new PlacementReading(
        panel,
        board,
        placement,
        nominal,
        status,
        p,
        u,
        uRotationDeg,
        score,
        picture,
        xPx,
        yPx,
        note);
  }

  public PlacementReading turnU(double uDeg) {
    return new PlacementReading(
        panel, board, placement, nominal, status, pose, uMm, uDeg, score, picture, xPx, yPx, note);
  }
}
