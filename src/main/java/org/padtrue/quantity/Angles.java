package org.padtrue.quantity;

/** Angle arithmetic in degrees. Angles are in degrees. */
public final class Angles {
  private Angles() {}

  /**
   * Wraps an angle.
   *
   * @param deg any finite angle, degrees
   * @return the same direction in (-180, 180]; NaN stays NaN
   */
  public static double wrap(double deg) {
    return wrap(deg, 1);
  }

  /**
   * Wraps an angle modulo the symmetry of a part.
   *
   * @param deg any finite angle, degrees
   * @param symmetry how many times the part looks the same in one turn: 1, 2 or 4
   * @return the equivalent angle in (-180/symmetry, 180/symmetry]; NaN stays NaN
   */
  public static double wrap(double deg, int symmetry) {
    if (symmetry < 1) {
      throw new IllegalArgumentException("symmetry = " + symmetry + "; expected 1, 2 or 4");
    }
    double period = 360.0 / symmetry;
    double r = deg % period;
    if (r <= -period / 2) {
      r += period;
    } else if (r > period / 2) {
      r -= period;
    }
    // -0.0 would print as "-0"
    return r + 0.0;
  }

  /** Quarter turn nearest to an angle: 0, 90, 180 or 270. */
  public static int quadrant(double deg) {
    int q = (int) Math.round(deg / 90.0) % 4;
    return 90 * (q < 0 ? q + 4 : q);
  }

  /** Cosine that is exact at quarter turns, so that turning a panel by 90 degrees is exact too. */
  public static double cosDeg(double deg) {
    double w = wrap(deg);
    if (w == 0) {
      return 1;
    }
    if (w == 180) {
      return -1;
    }
    return Math.abs(w) == 90 ? 0 : Math.cos(Math.toRadians(w));
  }

  /** Sine that is exact at quarter turns. */
  public static double sinDeg(double deg) {
    double w = wrap(deg);
    if (w == 0 || w == 180) {
      return 0;
    }
    if (Math.abs(w) == 90) {
      return Math.signum(w);
    }
    return Math.sin(Math.toRadians(w));
  }
}
