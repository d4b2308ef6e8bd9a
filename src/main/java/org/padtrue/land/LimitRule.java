package org.padtrue.land;

import java.util.List;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Rect;

/**
 * What is allowed for one kind of joint in one acceptance class.
 *
 * @param kind kind of joint
 * @param acceptanceClass 1, 2 or 3
 * @param sideFraction side overhang allowed, as a fraction of a width; NaN for balls
 * @param basis the width that {@code sideFraction} is taken of
 * @param sideCapMm side overhang is never more than this, mm; infinite = no cap
 * @param endOverhangMm end (toe) overhang allowed, mm; 0 = none, infinite = not limited by itself
 * @param offsetFraction balls: distance of ball centre from land centre allowed, as a fraction of
 *     the land's diameter; NaN for other kinds
 * @param source its standing, a colon, standard and clause; a user's own words otherwise
 */
public record LimitRule(
    JointKind kind,
    int acceptanceClass,
    double sideFraction,
    Basis basis,
    double sideCapMm,
    double endOverhangMm,
    double offsetFraction,
    String source) {

  /** The width that a side limit is a fraction of. */
  public enum Basis {
    /** Width of termination or land, whichever is less. */
    LESSER,
    /** Width of the termination (lead). */
    TERMINATION
  }

  public LimitRule {
    if (acceptanceClass < 1 || acceptanceClass > 3) {
      throw new IllegalArgumentException(
          "acceptanceClass = " + acceptanceClass + "; expected 1, 2 or 3");
    }
    boolean ball = kind == JointKind.BALL;
    double used = ball ? offsetFraction : sideFraction;
    if (!(used >= 0) || Double.isInfinite(used)) {
      throw new IllegalArgumentException(
          (ball ? "offsetFraction" : "sideFraction") + " = " + used + "; expected 0 or more");
    }
    if (!(sideCapMm >= 0) || !(endOverhangMm >= 0)) {
      throw new IllegalArgumentException("limits in mm must be 0 or more");
    }
  }

  /** What a limit rests on, as its source begins. */
  private static final List<String> STANDINGS =
      List.of("published", "published summary", "from memory", "common practice");

  /**
   * What the limit rests on: published, published summary (of the standard, its own text not
   * checked), from memory, common practice; own limit where a user's file gives it.
   */
  public String standing() {
    int colon = source.indexOf(':');
    String first = colon < 0 ? "" : source.substring(0, colon);
    return STANDINGS.contains(first) ? first : "own limit";
  }

  /** Side overhang that is allowed, mm, for a termination and its land as wide as given, mm. */
  public double sideLimitMm(double terminationWidthMm, double landWidthMm) {
    double width =
        basis == Basis.LESSER ? Math.min(terminationWidthMm, landWidthMm) : terminationWidthMm;
    return Math.min(sideFraction * width, sideCapMm);
  }

  /** Offset of ball centre from land centre that is allowed, mm. */
  public double offsetLimitMm(Rect land) {
    return offsetFraction * Math.min(land.lengthMm(), land.widthMm());
  }
}
