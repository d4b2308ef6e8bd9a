package org.padtrue.land.clearance;

import org.padtrue.land.LandFit;
import org.padtrue.land.risk.Replicates;
import org.padtrue.land.risk.Risk;
import org.padtrue.numeric.NormalTail;
import org.padtrue.numeric.Probability;
import org.padtrue.numeric.QuasiRandom;
import org.padtrue.panel.Pose;

/**
 * Probability that two neighbours touch at their predicted poses, or come nearer than a wanted gap,
 * when they scatter.
 *
 * <p>Method as in {@link Risk}: both rotations and the displacement across the gap are Sobol
 * coordinates; along the gap the displacements at which the two rectangles overlap are one interval
 * (overlap is convex; {@link NearShape} where a gap is wanted), cut out exactly, and its normal
 * probability is exact. Rare events are drawn wider and weighted back. Deterministic; the scatter
 * of eight replicates is the stated error. A bound shows most pairs to be negligible.
 */
public final class TouchRisk {
  /** 8 P(Z &gt; 6.05) = 5.8e-9: four coordinates, two sides. */
  private static final double SAFE_SIGMAS = 6.05;

  private static final int FEWEST = 32;

  private final BodyOutline outlineA;
  private final BodyOutline outlineB;
  private final Pose a;
  private final Pose b;
  private final double sdRotationA;
  private final double sdRotationB;
  private final double gap;
  private final double wanted;
  private final double dirX;
  private final double dirY;
  private final double sdAcross;
  private final double slope;
  private final double sdRest;
  private final int wideA;
  private final int wideB;
  private final int wideAcross;
  private final double safeSigmas;

  private TouchRisk(
      BodyOutline outlineA, Pose a, BodyOutline outlineB, Pose b, PairSpread s, double wanted) {
    this.outlineA = outlineA;
    this.outlineB = outlineB;
    this.a = a;
    this.b = b;
    this.wanted = wanted;
    sdRotationA = Math.sqrt(s.varRotationA());
    sdRotationB = Math.sqrt(s.varRotationB());
    Standing sa = Standing.of(outlineA, a);
    Standing sb = Standing.of(outlineB, b);
    // what is left of the gap beyond the one that is wanted
    gap = sa.gap(sb) - wanted;
    double[] dir = bestDirection(sa, sb);
    dirX = dir[0];
    dirY = dir[1];
    double along = quadratic(s, dirX, dirY, dirX, dirY);
    double across = quadratic(s, -dirY, dirX, -dirY, dirX);
    double both = quadratic(s, dirX, dirY, -dirY, dirX);
    sdAcross = Math.sqrt(across);
    slope = across > 0 ? both / sdAcross : 0;
    sdRest = Math.sqrt(Math.max(0, along - slope * slope));
    double turnA = outlineA.reachMm() * Math.toRadians(sdRotationA);
    double turnB = outlineB.reachMm() * Math.toRadians(sdRotationB);
    // Either the shadows along the gap or the rectangles themselves have to be bridged.
    safeSigmas =
        Math.max(
            LandFit.ratio(sa.separation(sb) - wanted, Math.sqrt(along) + turnA + turnB),
            LandFit.ratio(gap, Math.sqrt(s.varX() + s.varY()) + turnA + turnB));
    double all = Math.sqrt(along + turnA * turnA + turnB * turnB);
    wideA = wide(turnA, all);
    wideB = wide(turnB, all);
    // side by side only a slope makes the way across matter; corner to corner it always does
    boolean corner = sa.along(sb, -dirY, dirX) > 0;
    wideAcross = Math.max(wide(Math.abs(slope), all), corner && gap > all ? 2 : 1);
  }

  /**
   * Probability of touching.
   *
   * @param pair the pair; its predicted poses count
   * @param spread how they scatter against each other
   * @return NaN where a pose or an outline is not known
   */
  public static Probability of(PairClearance pair, PairSpread spread) {
    BodyOutline oa = BodyOutline.of(pair.a().part());
    BodyOutline ob = BodyOutline.of(pair.b().part());
    if (oa == null || ob == null || Double.isNaN(pair.gapAfterTrim())) {
      return Probability.UNKNOWN;
    }
    return of(oa, pose(pair.a()), ob, pose(pair.b()), spread, 0);
  }

  /** Probability that the gap is less than a wanted one. */
  static Probability of(
      BodyOutline a, Pose poseA, BodyOutline b, Pose poseB, PairSpread spread, double wantedMm) {
    TouchRisk r = new TouchRisk(a, poseA, b, poseB, spread, wantedMm);
    return r.safeSigmas >= SAFE_SIGMAS ? new Probability(0, Risk.NEGLIGIBLE, 0) : r.integrate();
  }

  private static Pose pose(ClearanceItem i) {
    Pose p = i.afterTrim();
    return Double.isNaN(p.rotationDeg())
        ? new Pose(p.xMm(), p.yMm(), i.nominal().rotationDeg())
        : p;
  }

  private static double quadratic(PairSpread s, double ax, double ay, double bx, double by) {
    return ax * bx * s.varX() + (ax * by + ay * bx) * s.covXY() + ay * by * s.varY();
  }

  /** The side direction that parts the two best, pointing from a to b. */
  private static double[] bestDirection(Standing a, Standing b) {
    double[][] sides = {
      {a.cos(), a.sin()}, {-a.sin(), a.cos()}, {b.cos(), b.sin()}, {-b.sin(), b.cos()}
    };
    double[] best = sides[0];
    for (double[] d : sides) {
      if (a.along(b, d[0], d[1]) > a.along(b, best[0], best[1])) {
        best = d;
      }
    }
    double sign = (b.x() - a.x()) * best[0] + (b.y() - a.y()) * best[1] < 0 ? -1 : 1;
    return new double[] {sign * best[0], sign * best[1]};
  }

  private int wide(double part, double all) {
    if (!(all > 0)) {
      return 1;
    }
    double far = gap / all * Math.min(1, part / all);
    return far < 1 ? 1 : far < 3.5 ? 2 : 3;
  }

  private Probability integrate() {
    double[] sums = new double[QuasiRandom.REPLICATES];
    double[] weights = new double[QuasiRandom.REPLICATES];
    int n = FEWEST;
    add(sums, weights, 0, n);
    while (true) {
      Probability p = Replicates.estimate(sums, weights, n);
      if (p.standardError() <= Replicates.wanted(p.value()) || n >= QuasiRandom.MOST) {
        return p;
      }
      add(sums, weights, n, 2 * n);
      n *= 2;
    }
  }

  private void add(double[] sums, double[] weights, int from, int to) {
    QuasiRandom q = QuasiRandom.shared();
    for (int r = 0; r < sums.length; r++) {
      for (int i = from; i < to; i++) {
        int at = r * QuasiRandom.MOST + i;
        double weight = 1;
        weight *= sdRotationA > 0 ? Replicates.weight(q.z[0][at], wideA) : 1;
        weight *= sdRotationB > 0 ? Replicates.weight(q.z[1][at], wideB) : 1;
        weight *= sdAcross > 0 ? Replicates.weight(q.z[2][at], wideAcross) : 1;
        weights[r] += weight;
        sums[r] +=
            weight * touching(wideA * q.z[0][at], wideB * q.z[1][at], wideAcross * q.z[2][at]);
      }
    }
  }

  /** Probability of touching for given scores of rotations and of the displacement across. */
  private double touching(double scoreA, double scoreB, double scoreAcross) {
    double across = sdAcross * scoreAcross;
    Standing sa = Standing.of(outlineA, turned(a, sdRotationA * scoreA));
    Standing sb = Standing.of(outlineB, turned(b, sdRotationB * scoreB));
    double x = sb.x() - sa.x() - dirY * across;
    double y = sb.y() - sa.y() + dirX * across;
    double[] interval =
        wanted > 0 ? NearShape.cut(sa, sb, x, y, dirX, dirY, wanted) : overlap(sa, sb, x, y);
    if (interval[0] >= interval[1]) {
      return 0;
    }
    double mean = slope * scoreAcross;
    if (sdRest == 0) {
      return interval[0] < mean && mean < interval[1] ? 1 : 0;
    }
    // In the far tail the difference of two tails, not of two near-ones.
    double low = (interval[0] - mean) / sdRest;
    double high = (interval[1] - mean) / sdRest;
    return low > 0
        ? NormalTail.above(low) - NormalTail.above(high)
        : NormalTail.above(-high) - NormalTail.above(-low);
  }

  private double[] overlap(Standing sa, Standing sb, double x, double y) {
    double[] interval = {Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY};
    cut(interval, sa, sb, x, y, sa.cos(), sa.sin());
    cut(interval, sa, sb, x, y, -sa.sin(), sa.cos());
    cut(interval, sa, sb, x, y, sb.cos(), sb.sin());
    cut(interval, sa, sb, x, y, -sb.sin(), sb.cos());
    return interval;
  }

  private static Pose turned(Pose p, double deg) {
    return deg == 0 ? p : new Pose(p.xMm(), p.yMm(), p.rotationDeg() + deg);
  }

  /** Keeps the displacements along the gap at which the shadows on a side direction overlap. */
  private void cut(
      double[] interval, Standing sa, Standing sb, double x, double y, double sideX, double sideY) {
    double reach = sa.shadow(sideX, sideY) + sb.shadow(sideX, sideY);
    double start = x * sideX + y * sideY;
    double speed = dirX * sideX + dirY * sideY;
    if (Math.abs(speed) < 1e-12) {
      if (Math.abs(start) >= reach) {
        interval[0] = Double.POSITIVE_INFINITY;
      }
      return;
    }
    double one = (-reach - start) / speed;
    double two = (reach - start) / speed;
    interval[0] = Math.max(interval[0], Math.min(one, two));
    interval[1] = Math.min(interval[1], Math.max(one, two));
  }
}
