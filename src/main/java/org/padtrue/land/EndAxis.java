package org.padtrue.land;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/**
 * Which way a termination points: its end (toe) is limited one way, its sides another.
 *
 * <p>Part files do not say it, so it is read from the geometry. The end points away from the middle
 * of the part, along one of its axes; the other axis is the side. In this order:
 *
 * <ol>
 *   <li>balls have no end, nor has a termination under the middle of the part (a thermal land): all
 *       four directions count as sides;
 *   <li>a part with two terminations: the axis along which their centres lie farther apart;
 *   <li>a termination that straddles the middle of all terminations in one axis points along the
 *       other (the middle lead of a row, a tab);
 *   <li>else the axis in which it comes nearer to the edge of all terminations (the leads of a
 *       four-sided package; inner rows);
 *   <li>at a corner of a two-sided package both are equal: leads stand side by side, so the end is
 *       across the longer of the rows it belongs to; rows equal: along its longer side; square: the
 *       axis along which the part's terminations reach farther; a square of squares: x.
 * </ol>
 */
enum EndAxis {
  X_PLUS(1, 0),
  X_MINUS(-1, 0),
  Y_PLUS(0, 1),
  Y_MINUS(0, -1),
  NONE(0, 0);

  /** Distances closer than this count as equal, mm: drawings are rounded to 0.01 mm. */
  private static final double SAME_MM = 0.005;

  final int x;
  final int y;

  EndAxis(int x, int y) {
    this.x = x;
    this.y = y;
  }

  /** One direction for each termination, in their order. */
  static List<EndAxis> of(PartType part) {
    List<Rect> all = part.terminations();
    List<EndAxis> ends = new ArrayList<>(all.size());
    Hull hull = Hull.of(all);
    for (Rect t : all) {
      ends.add(part.kind() == JointKind.BALL ? NONE : one(t, all, hull));
    }
    return List.copyOf(ends);
  }

  private static EndAxis one(Rect t, List<Rect> all, Hull hull) {
    if (all.size() == 2) {
      double apartX = Math.abs(all.get(0).xMm() - all.get(1).xMm());
      double apartY = Math.abs(all.get(0).yMm() - all.get(1).yMm());
      return outward(t, hull, apartX >= apartY);
    }
    boolean middleX = Math.abs(t.xMm() - hull.midX()) < t.lengthMm() / 2 - SAME_MM;
    boolean middleY = Math.abs(t.yMm() - hull.midY()) < t.widthMm() / 2 - SAME_MM;
    if (middleX && middleY) {
      return NONE;
    }
    return outward(t, hull, middleX == middleY ? alongX(t, all, hull) : middleY);
  }

  private static EndAxis outward(Rect t, Hull hull, boolean alongX) {
    if (alongX) {
      return t.xMm() >= hull.midX() ? X_PLUS : X_MINUS;
    }
    return t.yMm() >= hull.midY() ? Y_PLUS : Y_MINUS;
  }

  private static boolean alongX(Rect t, List<Rect> all, Hull hull) {
    double leftX = hull.halfX() - Math.abs(t.xMm() - hull.midX()) - t.lengthMm() / 2;
    double leftY = hull.halfY() - Math.abs(t.yMm() - hull.midY()) - t.widthMm() / 2;
    if (Math.abs(leftX - leftY) > SAME_MM) {
      return leftX < leftY;
    }
    long columnMates = all.stream().filter(o -> Math.abs(o.xMm() - t.xMm()) < SAME_MM).count();
    long rowMates = all.stream().filter(o -> Math.abs(o.yMm() - t.yMm()) < SAME_MM).count();
    if (columnMates != rowMates) {
      return columnMates > rowMates;
    }
    if (Math.abs(t.lengthMm() - t.widthMm()) > SAME_MM) {
      return t.lengthMm() > t.widthMm();
    }
    return hull.halfX() >= hull.halfY() - SAME_MM;
  }

  /** Smallest upright rectangle around terminations. */
  private record Hull(double xMin, double xMax, double yMin, double yMax) {
    static Hull of(List<Rect> all) {
      double xMin = Double.POSITIVE_INFINITY;
      double xMax = Double.NEGATIVE_INFINITY;
      double yMin = Double.POSITIVE_INFINITY;
      double yMax = Double.NEGATIVE_INFINITY;
      for (Rect t : all) {
        xMin = Math.min(xMin, t.xMm() - t.lengthMm() / 2);
        xMax = Math.max(xMax, t.xMm() + t.lengthMm() / 2);
        yMin = Math.min(yMin, t.yMm() - t.widthMm() / 2);
        yMax = Math.max(yMax, t.yMm() + t.widthMm() / 2);
      }
      return new Hull(xMin, xMax, yMin, yMax);
    }

    double midX() {
      return (xMin + xMax) / 2;
    }

    double midY() {
      return (yMin + yMax) / 2;
    }

    double halfX() {
      return (xMax - xMin) / 2;
    }

    double halfY() {
      return (yMax - yMin) / 2;
    }
  }
}
