package org.padtrue.land.clearance;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/**
 * What a part takes up during assembly: a rectangle in the part frame and a height range.
 *
 * <p>The envelope of the part file where there is one. Else the rectangle around body and
 * terminations, from the board up to the body's height; a body without height is taken as endlessly
 * tall, so that nothing is called clear for want of a number.
 *
 * @param xMm centre, mm
 * @param yMm centre, mm
 * @param halfLengthMm half the side along the part's x, mm
 * @param halfWidthMm half the side along the part's y, mm
 * @param zMinMm lowest point above the board, mm
 * @param zMaxMm highest point, mm
 */
record BodyOutline(
    double xMm, double yMm, double halfLengthMm, double halfWidthMm, double zMinMm, double zMaxMm) {

  /** The outline of a part type; null when its file says nothing about size. */
  static @Nullable BodyOutline of(PartType part) {
    Envelope e = part.envelope();
    if (e != null) {
      return new BodyOutline(0, 0, e.lengthMm() / 2, e.widthMm() / 2, e.zMinMm(), e.zMaxMm());
    }
    Rect body = part.body();
    if (body == null) {
      return null;
    }
    double xMin = body.xMm() - body.lengthMm() / 2;
    double xMax = body.xMm() + body.lengthMm() / 2;
    double yMin = body.yMm() - body.widthMm() / 2;
    double yMax = body.yMm() + body.widthMm() / 2;
    for (Rect t : part.terminations()) {
      xMin = Math.min(xMin, t.xMm() - t.lengthMm() / 2);
      xMax = Math.max(xMax, t.xMm() + t.lengthMm() / 2);
      yMin = Math.min(yMin, t.yMm() - t.widthMm() / 2);
      yMax = Math.max(yMax, t.yMm() + t.widthMm() / 2);
    }
    double height = part.bodyHeightMm();
    return new BodyOutline(
        (xMin + xMax) / 2,
        (yMin + yMax) / 2,
        (xMax - xMin) / 2,
        (yMax - yMin) / 2,
        0,
        Double.isNaN(height) ? Double.POSITIVE_INFINITY : height);
  }

  /** True when the height ranges overlap; ranges that only touch do not. */
  boolean meetsInHeight(BodyOutline o) {
    return zMinMm < o.zMaxMm && o.zMinMm < zMaxMm;
  }

  /** Farthest corner from the part's origin, mm. */
  double reachMm() {
    return Math.hypot(Math.abs(xMm) + halfLengthMm, Math.abs(yMm) + halfWidthMm);
  }
}
