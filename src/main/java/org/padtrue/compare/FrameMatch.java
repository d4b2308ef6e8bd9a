package org.padtrue.compare;

import java.util.Arrays;
import org.padtrue.fit.PlanarFit;
import org.padtrue.fit.PlanarTransform;
import org.padtrue.numeric.Order;

/**
 * How the positions of one file become those of another: second = shift + scale * turn(mirrored
 * first). Found from placements that both have, robustly: a part that was moved in one of the files
 * does not bend the answer.
 *
 * <p>Positions are in mm.
 *
 * @param mirrored true when x of the first file changes its sign before the turn
 * @param turnDeg turn, counter-clockwise; a whole quarter where it is within 0.5 degrees of one
 * @param scale length of a unit step; a factor between units where it is within 0.5 % of one
 * @param shiftXMm image of the first file's origin
 * @param shiftYMm image of the first file's origin
 * @param agree placements that it brings together
 */
public record FrameMatch(
    boolean mirrored, double turnDeg, double scale, double shiftXMm, double shiftYMm, int agree) {
  private static final int ROUNDS = 6;
  private static final double FINE_MM = 1e-4;
  private static final double SNAP_SHARE = 0.005;
  private static final double SNAP_DEG = 0.5;
  private static final double[] FACTORS = {1, 25.4, 1 / 25.4, 0.0254, 1 / 0.0254, 1000, 0.001};

  /**
   * Finds the match.
   *
   * @param x of the first file, mm
   * @param y of the first file, mm
   * @param u x of the second file, same order
   * @param v y of the second file
   * @throws org.padtrue.numeric.UndeterminedException for fewer than two placements apart from each
   *     other
   */
  public static FrameMatch of(double[] x, double[] y, double[] u, double[] v) {
    FrameMatch plain = fit(false, x, y, u, v);
    FrameMatch mirror = fit(true, x, y, u, v);
    // any two points can be brought together, mirrored or not
    return mirror.agree > plain.agree ? mirror : plain;
  }

  /** Image of a placement of the first file, x. */
  public double x(double x, double y) {
    return transform().x(mirrored ? -x : x, y);
  }

  /** Image of a placement of the first file, y. */
  public double y(double x, double y) {
    return transform().y(mirrored ? -x : x, y);
  }

  private PlanarTransform transform() {
    double c = scale * Math.cos(Math.toRadians(turnDeg));
    double s = scale * Math.sin(Math.toRadians(turnDeg));
    return new PlanarTransform(shiftXMm, shiftYMm, c, -s, s, c);
  }

  private static FrameMatch fit(boolean mirrored, double[] x, double[] y, double[] u, double[] v) {
    double[] p = mirrored ? Arrays.stream(x).map(a -> -a).toArray() : x;
    boolean[] keep = new boolean[p.length];
    Arrays.fill(keep, true);
    PlanarTransform t = PlanarTransform.IDENTITY;
    for (int round = 0; round < ROUNDS; round++) {
      t =
          PlanarFit.fit(
                  PlanarFit.Family.SIMILARITY,
                  chosen(p, keep),
                  chosen(y, keep),
                  chosen(u, keep),
                  chosen(v, keep))
              .transform();
      double[] left = distances(t, p, y, u, v);
      double limit = Math.max(FINE_MM, Order.median(left) * (round == 0 ? 1 : 3));
      for (int i = 0; i < keep.length; i++) {
        keep[i] = left[i] <= limit;
      }
    }
    return snapped(mirrored, t, p, y, u, v);
  }

  private static FrameMatch snapped(
      boolean mirrored, PlanarTransform t, double[] p, double[] y, double[] u, double[] v) {
    double scale = t.scaleX();
    for (double f : FACTORS) {
      scale = Math.abs(t.scaleX() / f - 1) < SNAP_SHARE ? f : scale;
    }
    double quarter = 90 * Math.rint(t.rotationDeg() / 90);
    double turn = Math.abs(t.rotationDeg() - quarter) < SNAP_DEG ? quarter : t.rotationDeg();
    turn = turn == -180 ? 180 : turn + 0.0;
    PlanarTransform linear = new FrameMatch(mirrored, turn, scale, 0, 0, 0).transform();
    double[] dx = new double[p.length];
    double[] dy = new double[p.length];
    for (int i = 0; i < p.length; i++) {
      dx[i] = u[i] - linear.x(p[i], y[i]);
      dy[i] = v[i] - linear.y(p[i], y[i]);
    }
    FrameMatch m = new FrameMatch(mirrored, turn, scale, Order.median(dx), Order.median(dy), 0);
    double same = FileComparison.SAME_MM * Math.max(1, scale);
    int agree = 0;
    for (double d : distances(m.transform(), p, y, u, v)) {
      agree += d <= same ? 1 : 0;
    }
    return new FrameMatch(mirrored, turn, scale, m.shiftXMm, m.shiftYMm, agree);
  }

  private static double[] chosen(double[] v, boolean[] keep) {
    int n = 0;
    double[] out = new double[v.length];
    for (int i = 0; i < v.length; i++) {
      if (keep[i]) {
        out[n++] = v[i];
      }
    }
    return Arrays.copyOf(out, n);
  }

  private static double[] distances(
      PlanarTransform t, double[] p, double[] y, double[] u, double[] v) {
    double[] d = new double[p.length];
    for (int i = 0; i < d.length; i++) {
      d[i] = Math.hypot(u[i] - t.x(p[i], y[i]), v[i] - t.y(p[i], y[i]));
    }
    return d;
  }
}
