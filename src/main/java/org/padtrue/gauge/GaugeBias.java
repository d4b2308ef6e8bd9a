package org.padtrue.gauge;

import java.util.List;

/**
 * Bias of camera and person, from readings with the panel turned by 180 degrees.
 *
 * <p>A placement stands off by delta in the panel's own frame. A camera or person that reads c too
 * much along the machine's axes reads delta + c. With the panel turned the same placement stands
 * off by -delta along the machine's axes and is read as -delta + c; written in the panel's own
 * frame, turned back by 180 degrees, that is delta - c. Half the difference of the two is c, half
 * their sum is delta. No number of repeats without turning shows c. A rotation reads the same both
 * ways, so turning does not show its bias; nor does it show a bias that turns with the panel, such
 * as fiducials that sit off their own places.
 *
 * @param xMm bias along x of the unturned panel, mean over operators, mm
 * @param yMm along y, mm
 * @param standardErrorXMm its standard error, mm; NaN when it cannot be known
 * @param standardErrorYMm likewise, mm
 * @param byOperator the same per operator who read both ways
 * @param registrationSeen true when the standard errors rest on several registrations, so that what
 *     registering anew changes is in them; false: on the spread between placements only
 */
public record GaugeBias(
    double xMm,
    double yMm,
    double standardErrorXMm,
    double standardErrorYMm,
    List<ByOperator> byOperator,
    boolean registrationSeen) {

  public GaugeBias {
    byOperator = List.copyOf(byOperator);
  }

  /** The number for {@code measurement.bias}: the larger of the two, without sign, mm. */
  public double biasMm() {
    return Math.max(Math.abs(xMm), Math.abs(yMm));
  }

  /**
   * One operator's bias.
   *
   * @param operator name
   * @param placements placements read both ways
   * @param xMm mm
   * @param yMm mm
   * @param standardErrorXMm mm, NaN unknown
   * @param standardErrorYMm mm, NaN unknown
   */
  public record ByOperator(
      String operator,
      int placements,
      double xMm,
      double yMm,
      double standardErrorXMm,
      double standardErrorYMm) {}
}
