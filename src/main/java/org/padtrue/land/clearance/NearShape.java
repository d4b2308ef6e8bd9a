package org.padtrue.land.clearance;

import java.util.Arrays;

/**
 * The displacements of one outline from another at which they are nearer than a wanted gap: the
 * Minkowski sum of both rectangles (an octagon, its corners in order) widened by a disc. Convex.
 */
final class NearShape {
  private static final int SIDES = 8;
  private static final double PARALLEL = 1e-12;

  private NearShape() {}

  /**
   * Corners of the sum of two rectangles about the origin, counter-clockwise: x and y, mm. Parallel
   * sides give corners that coincide.
   */
  static double[][] corners(Standing a, Standing b) {
    double[][] sides = {
      {2 * a.halfLength() * a.cos(), 2 * a.halfLength() * a.sin()},
      {-2 * a.halfWidth() * a.sin(), 2 * a.halfWidth() * a.cos()},
      {2 * b.halfLength() * b.cos(), 2 * b.halfLength() * b.sin()},
      {-2 * b.halfWidth() * b.sin(), 2 * b.halfWidth() * b.cos()}
    };
    double x = 0;
    double y = 0;
    for (double[] s : sides) {
      if (s[1] < 0 || (s[1] == 0 && s[0] < 0)) {
        s[0] = -s[0];
        s[1] = -s[1];
      }
      x -= s[0] / 2;
      y -= s[1] / 2;
    }
    Arrays.sort(sides, (p, q) -> Double.compare(Math.atan2(p[1], p[0]), Math.atan2(q[1], q[0])));
    double[][] out = new double[SIDES][];
    for (int k = 0; k < SIDES; k++) {
      out[k] = new double[] {x, y};
      double[] s = sides[k % (SIDES / 2)];
      double way = k < SIDES / 2 ? 1 : -1;
      x += way * s[0];
      y += way * s[1];
    }
    return out;
  }

  /**
   * How far b may be displaced along a direction while it is nearer to a than wanted.
   *
   * @param x displacement of b's centre from a's, mm; y as well
   * @param dirX direction of length 1
   * @return least and greatest displacement, mm; the first is greater where there is none
   */
  static double[] cut(
      Standing a, Standing b, double x, double y, double dirX, double dirY, double wanted) {
    double[] all = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
    double[][] c = corners(a, b);
    for (int k = 0; k < SIDES; k++) {
      double[] v = c[k];
      double[] w = c[(k + 1) % SIDES];
      disc(all, x - v[0], y - v[1], dirX, dirY, wanted);
      double ex = w[0] - v[0];
      double ey = w[1] - v[1];
      double length = Math.hypot(ex, ey);
      if (length > 0) {
        strip(all, x - v[0], y - v[1], dirX, dirY, ex / length, ey / length, length, wanted);
      }
    }
    return all;
  }

  private static void disc(
      double[] all, double x, double y, double dirX, double dirY, double radius) {
    double along = x * dirX + y * dirY;
    double across = x * dirY - y * dirX;
    double half = radius * radius - across * across;
    if (half > 0) {
      double root = Math.sqrt(half);
      all[0] = Math.min(all[0], -along - root);
      all[1] = Math.max(all[1], -along + root);
    }
  }

  /** The strip outside one side, as wide as the gap; the inside lies between opposite strips. */
  private static void strip(
      double[] all,
      double x,
      double y,
      double dirX,
      double dirY,
      double ex,
      double ey,
      double length,
      double wanted) {
    double[] interval = {Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY};
    slab(interval, x * ex + y * ey, dirX * ex + dirY * ey, 0, length);
    slab(interval, x * ey - y * ex, dirX * ey - dirY * ex, 0, wanted);
    if (interval[0] < interval[1]) {
      all[0] = Math.min(all[0], interval[0]);
      all[1] = Math.max(all[1], interval[1]);
    }
  }

  private static void slab(double[] interval, double start, double speed, double from, double to) {
    if (Math.abs(speed) < PARALLEL) {
      if (start <= from || start >= to) {
        interval[0] = Double.POSITIVE_INFINITY;
      }
      return;
    }
    double one = (from - start) / speed;
    double two = (to - start) / speed;
    interval[0] = Math.max(interval[0], Math.min(one, two));
    interval[1] = Math.min(interval[1], Math.max(one, two));
  }
}
