package org.padtrue.compare;

import java.util.List;

/**
 * What was found on one side of the board.
 *
 * @param side top, bottom, or all where a file states no side
 * @param count placements that both files have with a position
 * @param frame how positions differ
 * @param turn how rotations differ
 * @param elsewhere refs whose positions do not agree, with the distance in mm
 * @param typesTurned part types that are turned alike against the rest, with the turn in degrees
 * @param turned other refs whose rotations do not agree
 */
public record SideComparison(
    String side,
    int count,
    FrameMatch frame,
    TurnMatch turn,
    List<Named> elsewhere,
    List<Named> typesTurned,
    List<Named> turned) {

  /** A name and a number. */
  public record Named(String name, double value) {}

  public SideComparison {
    elsewhere = List.copyOf(elsewhere);
    typesTurned = List.copyOf(typesTurned);
    turned = List.copyOf(turned);
  }

  /** True when nothing differs. */
  public boolean same() {
    return sameFrame() && turn.sense() == 1 && turn.turnDeg() == 0 && nothingAlone();
  }

  /** True when the positions are the same numbers. */
  public boolean sameFrame() {
    return !frame.mirrored()
        && frame.turnDeg() == 0
        && frame.scale() == 1
        && Math.abs(frame.shiftXMm()) < FileComparison.SAME_MM
        && Math.abs(frame.shiftYMm()) < FileComparison.SAME_MM;
  }

  private boolean nothingAlone() {
    return elsewhere.isEmpty() && typesTurned.isEmpty() && turned.isEmpty();
  }
}
