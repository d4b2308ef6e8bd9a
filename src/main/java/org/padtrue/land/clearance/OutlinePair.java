package org.padtrue.land.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Probability;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * Two part types whose height ranges overlap, wherever they stand: their gap, its risk, and the
 * half-planes of b's position from a's in which the gap is there. mm and degrees, panel frame.
 */
public final class OutlinePair {
  private static final double SAME = 1e-9;

  private final BodyOutline a;
  private final BodyOutline b;

  private OutlinePair(BodyOutline a, BodyOutline b) {
    this.a = a;
    this.b = b;
  }

  /** Empty where no size is known of one, or where one passes over the other. */
  public static Optional<OutlinePair> of(PartType a, PartType b) {
    BodyOutline oa = BodyOutline.of(a);
    BodyOutline ob = BodyOutline.of(b);
    return oa == null || ob == null || !oa.meetsInHeight(ob)
        ? Optional.empty()
        : Optional.of(new OutlinePair(oa, ob));
  }

  /** Farthest corner of a from its part's origin, mm. */
  public double reachA() {
    return a.reachMm();
  }

  /** Farthest corner of b from its part's origin, mm. */
  public double reachB() {
    return b.reachMm();
  }

  /** Least distance, mm; negative = overlap, minus the shortest shift that frees them. */
  public double gap(Pose poseA, Pose poseB) {
    return Standing.of(a, poseA).gap(Standing.of(b, poseB));
  }

  /** Probability that the gap is less than wanted, mm (0 = that they touch). */
  public Probability below(double wantedMm, Pose poseA, Pose poseB, PairSpread spread) {
    return TouchRisk.of(a, poseA, b, poseB, spread, wantedMm);
  }

  /**
   * A half-plane: nx (xb - xa) + ny (yb - ya) is at least {@code least}, mm.
   *
   * @param nx direction of length 1, from a to b
   * @param ny the same
   * @param least mm
   * @param slope by what {@code least} grows with the wanted gap: 1 at a side
   * @param corner the corner that it belongs to; null at a side
   */
  public record HalfPlane(
      double nx, double ny, double least, double slope, @Nullable Corner corner) {}

  /**
   * A corner: b's position from a's lies between both directions, seen from it. Being in the
   * half-plane is needed, not enough; the gap itself is round there.
   *
   * @param x position that the gap is counted from, mm
   * @param y the same
   * @param fromX first direction, of length 1
   * @param fromY the same
   * @param toX last direction, counter-clockwise from the first
   * @param toY the same
   */
  public record Corner(double x, double y, double fromX, double fromY, double toX, double toY) {}

  /**
   * Half-planes whose union holds every position with the wanted gap: one outside each side, where
   * the gap is there, and one beyond the chord of each corner's arc, which is needed there.
   *
   * @param wantedMm gap, mm; below nought an overlap that is allowed, then there are no corners
   */
  public List<HalfPlane> ways(Pose poseA, Pose poseB, double wantedMm) {
    Standing sa = Standing.of(a, poseA);
    Standing sb = Standing.of(b, poseB);
    // centres are not where the parts' origins are
    double ox = sb.x() - poseB.xMm() - sa.x() + poseA.xMm();
    double oy = sb.y() - poseB.yMm() - sa.y() + poseA.yMm();
    double[][] c = distinct(NearShape.corners(sa, sb));
    List<HalfPlane> out = new ArrayList<>();
    double[][] normals = new double[c.length][];
    for (int k = 0; k < c.length; k++) {
      double[] w = c[(k + 1) % c.length];
      double length = Math.hypot(w[0] - c[k][0], w[1] - c[k][1]);
      double nx = (w[1] - c[k][1]) / length;
      double ny = (c[k][0] - w[0]) / length;
      normals[k] = new double[] {nx, ny};
      double reach = nx * (c[k][0] - ox) + ny * (c[k][1] - oy);
      out.add(new HalfPlane(nx, ny, reach + wantedMm, 1, null));
    }
    for (int k = 0; wantedMm > SAME && k < c.length; k++) {
      double[] before = normals[(k + c.length - 1) % c.length];
      double nx = before[0] + normals[k][0];
      double ny = before[1] + normals[k][1];
      double length = Math.hypot(nx, ny);
      nx /= length;
      ny /= length;
      double share = nx * normals[k][0] + ny * normals[k][1];
      double cx = c[k][0] - ox;
      double cy = c[k][1] - oy;
      Corner at = new Corner(cx, cy, before[0], before[1], normals[k][0], normals[k][1]);
      out.add(new HalfPlane(nx, ny, nx * cx + ny * cy + share * wantedMm, share, at));
    }
    return out;
  }

  private static double[][] distinct(double[][] corners) {
    List<double[]> out = new ArrayList<>();
    for (double[] p : corners) {
      double[] last = out.isEmpty() ? corners[corners.length - 1] : out.get(out.size() - 1);
      if (Math.hypot(p[0] - last[0], p[1] - last[1]) > SAME) {
        out.add(p);
      }
    }
    return out.toArray(double[][]::new);
  }
}
