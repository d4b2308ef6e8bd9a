package org.padtrue.firstarticle.result;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;

/**
 * One level of a factor: a part type, a nozzle, a feeder, a head, a board.
 *
 * @param factor the factor
 * @param level its name
 * @param frame part or panel
 * @param count used placements
 * @param rotations distinct nominal rotations among them
 * @param zeroOrientation how the whole type is turned against its library: 0, 90, 180 or 270
 * @param offset the level's own predicted offset (BLUP)
 * @param standardErrors standard errors of the prediction, variance uncertainty included
 * @param degreesOfFreedom for the t quantile, by x, y, rotation
 * @param combined offset plus common for factor part, else the offset
 * @param combinedStandardErrors their standard errors
 * @param leastSquares plain least squares of the level alone after the panel transform
 * @param ownTransform rigid (affine where its placements carry it) fit of the level's own
 *     placements, or null when they carry none
 * @param trim what to enter
 */
public record GroupResult(
    Factor factor,
    String level,
    String frame,
    int count,
    int rotations,
    int zeroOrientation,
    Xyr offset,
    Xyr standardErrors,
    Xyr degreesOfFreedom,
    Xyr combined,
    Xyr combinedStandardErrors,
    Xyr leastSquares,
    @Nullable OwnTransform ownTransform,
    TrimValue trim) {

  /** The level with its factor. */
  public Level named() {
    return new Level(factor, level);
  }

  /**
   * Name of the component, as in tests and variances: the factor, and its frame where the same
   * factor has an earlier component.
   */
  public static String source(GroupResult g, List<GroupResult> all) {
    for (GroupResult o : all) {
      if (o.factor() == g.factor() && !o.frame().equals(g.frame())) {
        return g.frame().equals("part")
            ? g.factor().key()
            : g.factor().key() + " in the panel frame";
      }
    }
    return g.factor().key();
  }

  /**
   * A transform fitted to one level's placements alone, by plain least squares.
   *
   * @param family rigid or affine
   * @param values estimates, shift at the panel origin
   * @param standardErrors their standard errors
   */
  public record OwnTransform(
      String family, TransformValues values, TransformValues standardErrors) {}
}
