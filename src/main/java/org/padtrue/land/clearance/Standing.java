package org.padtrue.land.clearance;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
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
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

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
    return s <= 0 ? s : polygon().distance(o.polygon());
  }

  Polygon polygon() {
    Coordinate first = corner(1, 1);
    Coordinate[] ring = {first, corner(-1, 1), corner(-1, -1), corner(1, -1), first};
    return GEOMETRY.createPolygon(ring);
  }

  private Coordinate corner(int a, int b) {
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
