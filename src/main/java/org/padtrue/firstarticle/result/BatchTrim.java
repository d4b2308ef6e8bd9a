package org.padtrue.firstarticle.result;

import java.util.List;
import org.padtrue.panel.BoardIndex;

/**
 * Corrections for the whole batch, one of each kind, never one per panel. Together they are the
 * correction field c(r) = shift + B r with r from the panel origin, B from rotation and scale.
 *
 * @param shift registration, at the panel origin given the other corrections
 * @param rotation registration, about the panel origin
 * @param scale scale and squareness
 * @param array corrected board coordinates
 * @param common offset common to all parts, part frame
 * @param rotationZero rotation common to all parts
 */
public record BatchTrim(
    Shift shift, Angle rotation, Scale scale, ArrayTrim array, Shift common, Angle rotationZero) {

  /** A correction in x and y, mm, with decision and one-sentence reason. */
  public record Shift(Xy value, Decision decision, String reason) {}

  /** A correction in degrees. */
  public record Angle(double value, Decision decision, String reason) {}

  /** A correction of scale, ppm, and squareness, mrad. */
  public record Scale(
      double xPpm, double yPpm, double squarenessMrad, Decision decision, String reason) {}

  /** New coordinates for the boards that the job listed. */
  public record ArrayTrim(List<BoardOrigin> boards, Decision decision, String reason) {
    public ArrayTrim {
      boards = List.copyOf(boards);
    }
  }

  /** New coordinates of a board's origin, mm. */
  public record BoardOrigin(BoardIndex board, double x, double y) {}
}
