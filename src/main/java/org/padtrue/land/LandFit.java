package org.padtrue.land;

import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Tolerance;
import org.padtrue.quantity.Angles;

/**
 * How much room a part type has left at a deviation.
 *
 * <p>The margin is the least distance, in mm, by which a termination edge may still move before its
 * limit; negative = outside. All deviations are in the part frame ({@link PartFrame} turns them).
 * Three ways to judge, in this order:
 *
 * <ul>
 *   <li><b>tolerance</b> given: the lesser of what is left in x and y. Rotation decides only when
 *       it is out: then the margin is at most minus the way that the farthest edge of the part is
 *       beyond (excess angle times half its longest side);
 *   <li><b>lands and terminations</b>: side and end limits of the acceptance class for every
 *       termination ({@link Overhang} defines both), and every termination must still overlap its
 *       land along its end axis. Turned by more than 45 degrees (modulo symmetry) is outside
 *       whatever the edges say. Balls: the distance of ball centre from land centre;
 *   <li><b>neither</b>: not judged, NaN.
 * </ul>
 *
 * <p>A rotation that was not measured (NaN) is left out of the judgement: position alone decides,
 * as if the part stood square. Rotations are taken modulo the part's symmetry. A measured position
 * that is NaN gives NaN. Immutable and safe to share; {@link #margin} allocates nothing.
 */
public abstract class LandFit {
  private final PartType part;
  private final double reachMm;

  LandFit(PartType part, double reachMm) {
    this.part = part;
    this.reachMm = reachMm;
  }

  /**
   * The judge for a part type.
   *
   * @param part part type
   * @param limits limits to hold it against
   * @param acceptanceClass 1, 2 or 3
   */
  public static LandFit of(PartType part, AcceptanceLimits limits, int acceptanceClass) {
    if (part.tolerance() != null) {
      return new ToleranceFit(part, part.tolerance());
    }
    if (part.notJudged()) {
      return new NoFit(part);
    }
    Overhang.checkPairs(part);
    LimitRule rule = limits.rule(part.kind(), acceptanceClass);
    return part.kind() == JointKind.BALL ? new BallFit(part, rule) : new EdgeFit(part, rule);
  }

  /**
   * Least distance that is left.
   *
   * @param dxMm deviation along the part's own x, mm
   * @param dyMm deviation along the part's own y, mm
   * @param drotationDeg deviation in rotation, degrees; NaN = not measured
   * @return mm; negative = outside; NaN = not judged
   */
  public final double margin(double dxMm, double dyMm, double drotationDeg) {
    return marginAt(dxMm, dyMm, radians(drotationDeg));
  }

  /** The part type judged. */
  public final PartType part() {
    return part;
  }

  /** False where the part has neither tolerance nor geometry. */
  public boolean judged() {
    return true;
  }

  /**
   * Deviation that is allowed either way from nominal, one axis at a time with the others at zero:
   * what capability indices divide by.
   *
   * @return mm and degrees; NaN where not judged or where nominal itself is at its limit; the
   *     rotation is at most 180 degrees divided by the symmetry (then nothing limits it)
   */
  public final Tolerance allowed() {
    double[] x = new double[2];
    double[] y = new double[2];
    chord(true, 0, 0, x);
    chord(false, 0, 0, y);
    return new Tolerance(eitherWay(x), eitherWay(y), allowedRotation());
  }

  private static double eitherWay(double[] chord) {
    double t = Math.min(-chord[0], chord[1]);
    return t > 0 ? t : Double.NaN;
  }

  private double allowedRotation() {
    double most = 180.0 / part.symmetry();
    double step = 0.25;
    if (!(margin(0, 0, 0) > 0)) {
      return Double.NaN;
    }
    for (double in = 0; in < most; in += step) {
      if (outsideEitherWay(in + step)) {
        return bisect(in, in + step);
      }
    }
    return most;
  }

  private double bisect(double in, double out) {
    double a = in;
    double b = out;
    for (int i = 0; i < 50; i++) {
      double mid = (a + b) / 2;
      if (outsideEitherWay(mid)) {
        b = mid;
      } else {
        a = mid;
      }
    }
    return a;
  }

  private boolean outsideEitherWay(double deg) {
    return margin(0, 0, deg) < 0 || margin(0, 0, -deg) < 0;
  }

  /** Farthest point of any termination from the part's origin, mm: how far rotation carries. */
  public final double reachMm() {
    return reachMm;
  }

  /** Radians in the part's symmetry range; NaN (not measured) counts as square. */
  public final double radians(double drotationDeg) {
    double d = drotationDeg;
    if (Double.isNaN(d)) {
      return 0;
    }
    double half = 180.0 / part.symmetry();
    if (d > half || d <= -half) {
      d = Angles.wrap(d, part.symmetry());
    }
    return Math.toRadians(d);
  }

  /** The margin; rotation in radians, within the symmetry range. */
  public abstract double marginAt(double dxMm, double dyMm, double rotationRad);

  /**
   * The interval of one coordinate in which the part is inside, the other coordinate and the
   * rotation held. It always is one interval: limits are straight edges or circles.
   *
   * @param alongX true: interval of dx for a given dy; false: of dy for a given dx
   * @param rotationRad rotation, within the symmetry range
   * @param otherMm the coordinate that is held
   * @param out receives lower and upper end, mm; lower &gt; upper when nothing is inside
   */
  public abstract void chord(boolean alongX, double rotationRad, double otherMm, double[] out);

  /**
   * True when, at a given rotation, the inside is a rectangle in dx and dy, which {@link #limits}
   * tells.
   */
  public boolean rectangular() {
    return true;
  }

  /**
   * The rectangle of shifts that are inside at a rotation.
   *
   * @param rotationRad rotation, within the symmetry range
   * @param out receives least and greatest dx, least and greatest dy, mm; crossed when none is
   */
  public abstract void limits(double rotationRad, double[] out);

  /** Greatest rotation allowed by itself, radians; infinite where it acts through edges only. */
  public double rotationLimitRad() {
    return Double.POSITIVE_INFINITY;
  }

  /**
   * How safe a spread is: a number k such that the part is inside as long as dx, dy and rotation
   * each stay within k of their standard deviations of the mean. Not positive = the mean is
   * outside.
   */
  public abstract double safeSigmas(
      double dxMm, double dyMm, double rotationRad, double sdX, double sdY, double sdRad);

  /** Room divided by spread; infinite where nothing spreads. */
  public static double ratio(double room, double spread) {
    return room <= 0 ? room : room / spread;
  }

  /** Writes an empty interval. */
  static void empty(double[] out) {
    out[0] = Double.POSITIVE_INFINITY;
    out[1] = Double.NEGATIVE_INFINITY;
  }
}
