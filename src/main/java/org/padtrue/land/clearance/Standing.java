package org.padtrue.land.clearance;

import org.locationtech.jts.algorithm.Distance;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * An outline standing somewhere: a turned rectangle in the panel frame.
 *
 * @param x centre, mm
 * @param y centre, mm
 * @param cos of its rotation
 * @param sin of its rotation
 * @param halfLength half side along its own x, mm
 * @param halfWidth half side along its own y, mm
 */
record Standing(double x, double y, double cos, double sin, double halfLength, double halfWidth) {
  private static final int SIDES = 4;

  /** More than sums of coordinates are rounded by. */
  static final double ROUNDING_MM = 1e-9;

  /** Squares that differ by less may belong to equal distances. */
  private static final double ALIKE = 1e-6;

  static Standing of(BodyOutline o, Pose pose) {
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    return new Standing(
        pose.xMm() + c * o.xMm() - s * o.yMm(),
        pose.yMm() + s * o.xMm() + c * o.yMm(),
        c,
        s,
        o.halfLengthMm(),
        o.halfWidthMm());
  }

  Standing shifted(double dx, double dy) {
    return new Standing(x + dx, y + dy, cos, sin, halfLength, halfWidth);
  }

  /** Half the width of the shadow that the rectangle throws on a direction. */
  double shadow(double dirX, double dirY) {
    return halfLength * Math.abs(dirX * cos + dirY * sin)
        + halfWidth * Math.abs(dirY * cos - dirX * sin);
  }

  /**
   * Distance of the shadows on the direction that parts the two best, of the four side directions.
   * Positive: apart, and the rectangles at least so far. Not positive: they overlap, and minus this
   * is the shortest shift that frees them (separating axis theorem, exact for rectangles).
   */
  double separation(Standing o) {
    double best = along(o, cos, sin);
    best = Math.max(best, along(o, -sin, cos));
    best = Math.max(best, along(o, o.cos, o.sin));
    return Math.max(best, along(o, -o.sin, o.cos));
  }

  double along(Standing o, double dirX, double dirY) {
    double apart = Math.abs((o.x - x) * dirX + (o.y - y) * dirY);
    return apart - shadow(dirX, dirY) - o.shadow(dirX, dirY);
  }

  /** Least distance, mm; negative = overlap, minus the shortest shift that frees them. */
  double gap(Standing o) {
    double s = separation(o);
    return s <= 0 ? s : distance(corners(), o.corners());
  }

  /** Whether the gap is below a length, mm; most pairs are told by their shadows. */
  boolean nearer(Standing o, double than) {
    double s = separation(o);
    return s < than + ROUNDING_MM && (s <= 0 ? s : distance(corners(), o.corners())) < than;
  }

  /**
   * Of two rectangles that are apart: from a corner of one to a side of the other. What may be the
   * least is found by squares, which cost little, then measured.
   */
  private static double distance(Coordinate[] a, Coordinate[] b) {
    double least = Double.POSITIVE_INFINITY;
    double[] squares = new double[2 * SIDES * SIDES];
    for (int i = 0; i < squares.length; i++) {
      Coordinate[] p = i % 2 == 0 ? a : b;
      Coordinate[] q = i % 2 == 0 ? b : a;
      int from = i / 2 % SIDES;
      squares[i] = square(p[i / 2 / SIDES], q[from], q[(from + 1) % SIDES]);
      least = Math.min(least, squares[i]);
    }
    double measured = Double.POSITIVE_INFINITY;
    for (int i = 0; i < squares.length; i++) {
      if (squares[i] <= least * (1 + ALIKE) + ROUNDING_MM * ROUNDING_MM) {
        Coordinate[] p = i % 2 == 0 ? a : b;
        Coordinate[] q = i % 2 == 0 ? b : a;
        int from = i / 2 % SIDES;
        measured =
            Math.min(
                measured,
                Distance.pointToSegment(p[i / 2 / SIDES], q[from], q[(from + 1) % SIDES]));
      }
    }
    return measured;
  }

  private static double square(Coordinate p, Coordinate from, Coordinate to) {
    double dx = to.x - from.x;
    double dy = to.y - from.y;
    double px = p.x - from.x;
    double py = p.y - from.y;
    double length = dx * dx + dy * dy;
    double share = length > 0 ? Math.max(0, Math.min(1, (px * dx + py * dy) / length)) : 0;
    double ox = px - share * dx;
    double oy = py - share * dy;
    return ox * ox + oy * oy;
  }

  private Coordinate[] corners() {
    return new Coordinate[] {corner(1, 1), corner(-1, 1), corner(-1, -1), corner(1, -1)};
  }

  Coordinate corner(int a, int b) {
    double u = a * halfLength;
    double v = b * halfWidth;
    return new Coordinate(x + cos * u - sin * v, y + sin * u + cos * v);
  }

  /** Upright box around it. */
  Envelope box() {
    double hx = shadow(1, 0);
    double hy = shadow(0, 1);
    return new Envelope(x - hx, x + hx, y - hy, y + hy);
  }
}
