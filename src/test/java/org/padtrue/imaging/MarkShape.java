package org.padtrue.imaging;

import java.util.List;
import org.padtrue.panel.Rect;

/** The usual shapes of fiducials and of lands that serve as such. */
enum MarkShape {
  ROUND,
  SQUARE,
  CROSS;

  /** What the copper is made of, but for a round one; arms of a cross are a fifth of its size. */
  List<Rect> copper(double sizeMm) {
    return this == SQUARE
        ? List.of(new Rect(0, 0, sizeMm, sizeMm))
        : List.of(new Rect(0, 0, sizeMm, 0.2 * sizeMm), new Rect(0, 0, 0.2 * sizeMm, sizeMm));
  }
}
