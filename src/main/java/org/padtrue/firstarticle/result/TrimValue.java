package org.padtrue.firstarticle.result;

import org.padtrue.quantity.Angles;

/**
 * What to enter for one level of a factor.
 *
 * @param value correction to ADD, rounded to the machine's resolution, its rotation without the
 *     turn; 0 where left
 * @param turn whole turn to ADD to the library's zero orientation, degrees: 0, 90, 180 or 270
 * @param decision what to do
 * @param reason one sentence
 */
public record TrimValue(Xyr value, int turn, Decision decision, String reason) {
  public TrimValue {
    if (turn < 0 || turn > 270 || turn % 90 != 0) {
      throw new IllegalArgumentException("turn = " + turn + "; expected 0, 90, 180 or 270");
    }
  }

  /** A trim without a turn. */
  public TrimValue(Xyr value, Decision decision, String reason) {
    this(value, 0, decision, reason);
  }

  /** The trim as it acts on a placement: rotation and turn together, in (-180, 180]. */
  public Xyr whole() {
    // a rest that is not known takes nothing from a turn
    double rest = Double.isNaN(value.rotation()) && turn != 0 ? 0 : value.rotation();
    return new Xyr(value.x(), value.y(), Angles.wrap(rest + turn));
  }

  /**
   * What a rotation leaves beside a turn, to a billionth of a degree: what is finer is arithmetic.
   *
   * @param rotation degrees, turn included
   * @param turn degrees
   */
  public static double rest(double rotation, int turn) {
    return Math.rint(1e9 * Angles.wrap(rotation - turn)) / 1e9 + 0.0;
  }

  /**
   * The turn that takes a zero orientation back.
   *
   * @param zeroOrientation measured turn of a whole type: 0, 90, 180 or 270
   * @param symmetry of the part: 1, 2 or 4
   * @return 0, 90, 180 or 270, the least that does it
   */
  public static int back(int zeroOrientation, int symmetry) {
    return Math.floorMod(-zeroOrientation, 360 / symmetry);
  }
}
