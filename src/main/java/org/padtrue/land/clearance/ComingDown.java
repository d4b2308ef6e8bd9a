package org.padtrue.land.clearance;

import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * Whether a part that comes down straight would touch one that stands: the space above its outline
 * is swept by the part, the space above its top by the nozzle.
 */
public final class ComingDown {
  private ComingDown() {}

  /** What would be touched. */
  public enum Touched {
    NOTHING,
    BY_PART,
    BY_NOZZLE
  }

  /**
   * Looks.
   *
   * @param coming type that is placed later
   * @param at where it is placed
   * @param nozzleMm outer diameter of its nozzle, about its origin, mm; NaN = not known
   * @param standing type that stands already
   * @param there where
   */
  public static Touched of(
      PartType coming, Pose at, double nozzleMm, PartType standing, Pose there) {
    BodyOutline c = BodyOutline.of(coming);
    BodyOutline s = BodyOutline.of(standing);
    if (c == null || s == null || c.meetsInHeight(s) && overlap(c, at, s, there)) {
      // without a size nothing is known; those that overlap at one height cannot both stand
      return Touched.NOTHING;
    }
    if (s.zMaxMm() > c.zMinMm() && overlap(c, at, s, there)) {
      return Touched.BY_PART;
    }
    boolean above = s.zMaxMm() > c.zMaxMm();
    return above && nozzleMm > 0 && distance(Standing.of(s, there), at) < nozzleMm / 2
        ? Touched.BY_NOZZLE
        : Touched.NOTHING;
  }

  private static boolean overlap(BodyOutline a, Pose pa, BodyOutline b, Pose pb) {
    return Standing.of(a, pa).separation(Standing.of(b, pb)) < 0;
  }

  /** Distance of a point from a turned rectangle, mm; 0 inside. */
  private static double distance(Standing r, Pose p) {
    double x = p.xMm() - r.x();
    double y = p.yMm() - r.y();
    double along = Math.abs(x * r.cos() + y * r.sin()) - r.halfLength();
    double across = Math.abs(y * r.cos() - x * r.sin()) - r.halfWidth();
    return Math.hypot(Math.max(0, along), Math.max(0, across));
  }
}
