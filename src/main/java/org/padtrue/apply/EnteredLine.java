package org.padtrue.apply;

import org.padtrue.firstarticle.result.TrimLine;

/**
 * A line of a trim sheet as it was entered in the machine: values that were ADDED, in the line's
 * own units (mm, degrees; ppm and mrad for scale). NaN where the line has no such value.
 *
 * @param entered false when nothing of it was entered
 * @param x added to x
 * @param y added to y
 * @param rotation added to rotation, without the turn
 * @param turn whole turn that was added: 0, 90, 180 or 270
 * @param squareness added to the angle between the axes
 */
public record EnteredLine(
    boolean entered, double x, double y, double rotation, int turn, double squareness) {

  /** As the sheet proposes it. */
  public static EnteredLine asProposed(TrimLine t) {
    return new EnteredLine(
        true, t.addX(), t.addY(), t.addRotation(), t.addTurn(), t.addSquareness());
  }

  /** Nothing of it. */
  public static EnteredLine not(TrimLine t) {
    return new EnteredLine(
        false, none(t.addX()), none(t.addY()), none(t.addRotation()), 0, none(t.addSquareness()));
  }

  private static double none(double v) {
    return Double.isNaN(v) ? v : 0;
  }

  /** True when it is what the sheet proposes. */
  public boolean is(TrimLine t) {
    return entered
        && same(x, t.addX())
        && same(y, t.addY())
        && same(rotation, t.addRotation())
        && turn == t.addTurn()
        && same(squareness, t.addSquareness());
  }

  private static boolean same(double a, double b) {
    return Double.isNaN(a) && Double.isNaN(b) || Math.abs(a - b) < 1e-9;
  }
}
