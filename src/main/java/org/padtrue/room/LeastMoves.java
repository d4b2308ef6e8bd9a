package org.padtrue.room;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.clearance.OutlinePair.Corner;
import org.padtrue.land.clearance.OutlinePair.HalfPlane;
import org.padtrue.numeric.NormalTail;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * The shortest moves of a few placements that leave every pair its gap and every placement its land
 * limits.
 *
 * <p>For each pair one half-plane has to hold: outside one side of either outline, or round one
 * corner. Given the choice the problem is convex (least squares in half-spaces; land limits, chance
 * limits and the longest move are cut in as tangents). The choices are searched by branch and
 * bound: only pairs that a solution misses are branched on, and a branch is left when its bound is
 * no better than what is known, so small groups are solved to the end.
 */
final class LeastMoves {
  /** Added to every gap and margin, mm: moves are given to 0.01 um. */
  static final double SLACK_MM = 2e-5;

  private static final int MOST_NODES = 3000;
  private static final int MOST_CUTS = 60;
  private static final int MOST_ROUNDS = 15;
  private static final double STILL_MM = 1e-7;
  private static final double ROUNDING_MM = 1e-9;

  /** A bound has to be better than the best by this share. */
  private static final double BETTER = 1e-5;

  /** As in {@link LandRows}. */
  private static final double SAFE = 0.985;

  private final int size;
  private final List<Near> pairs;
  private final int[] ofA;
  private final int[] ofB;
  private final LandRows lands;
  private final RoomOptions options;
  private final double[] turn;
  private final double relief;
  private final double z;
  private final List<ConvexProgram.Row> cuts = new ArrayList<>();
  private int nodes;
  private boolean complete = true;
  private @Nullable Found best;

  /** One half-plane that was chosen for a pair; what scatter asks for beyond the gap, mm. */
  private static final class Chosen {
    final int pair;
    final HalfPlane way;
    double extra;

    Chosen(int pair, HalfPlane way, double extra) {
      this.pair = pair;
      this.way = way;
      this.extra = extra;
    }
  }

  /**
   * Moves.
   *
   * @param x x and y of each variable, mm, board axes
   * @param square sum of squares, mm^2
   * @param binding pairs that hold the moves where they are
   * @param complete false when the search was cut short, so there may be shorter ones
   */
  record Found(double[] x, double square, List<Near> binding, boolean complete) {}

  /**
   * Prepares a search.
   *
   * @param size number of variables
   * @param pairs every pair that the moves may bring too near
   * @param ofA variable of each pair's first item; -1 = it stays
   * @param ofB of its second
   * @param turn rotation added to each variable, degrees
   * @param relief length by which gaps may be missed, mm
   */
  LeastMoves(
      int size,
      List<Near> pairs,
      int[] ofA,
      int[] ofB,
      LandRows lands,
      RoomOptions options,
      double[] turn,
      double relief) {
    this.size = size;
    this.pairs = pairs;
    this.ofA = ofA;
    this.ofB = ofB;
    this.lands = lands;
    this.options = options;
    this.turn = turn;
    this.relief = relief;
    this.z = NormalTail.scoreAbove(options.risk() * SAFE);
  }

  /** The shortest moves; null when there are none within the limits. */
  @Nullable Found search() {
    branch(new ArrayList<>());
    return best == null || complete
        ? best
        : new Found(best.x(), best.square(), best.binding(), false);
  }

  private void branch(List<Chosen> chosen) {
    if (best != null && atLeast(chosen) >= best.square() * (1 - BETTER)) {
      return;
    }
    if (++nodes > MOST_NODES) {
      complete = false;
      return;
    }
    double[] x = solve(chosen);
    if (x == null) {
      return;
    }
    double square = square(x);
    if (best != null && square >= best.square() * (1 - BETTER) - ROUNDING_MM * ROUNDING_MM) {
      return;
    }
    int missed = mostMissed(x, chosen);
    if (missed < 0) {
      best = new Found(x, square, binding(x, chosen), true);
      return;
    }
    List<Chosen> ways = ways(missed);
    ways.sort(Comparator.comparingDouble(c -> row(c).missed(x)));
    for (Chosen c : ways) {
      List<Chosen> more = new ArrayList<>();
      // what is asked for beyond a gap is set anew in every branch
      chosen.forEach(o -> more.add(new Chosen(o.pair, o.way, o.extra)));
      more.add(c);
      branch(more);
    }
  }

  /** A bound that costs nothing: the way to the farthest of the half-spaces alone. */
  private double atLeast(List<Chosen> chosen) {
    double most = 0;
    double[] none = new double[2 * size];
    for (Chosen c : chosen) {
      most = Math.max(most, row(c).distance(none));
      Corner corner = c.way.corner();
      if (corner != null) {
        for (ConvexProgram.Row r : between(c, corner)) {
          most = Math.max(most, r.distance(none));
        }
      }
    }
    return most * most;
  }

  private List<Chosen> ways(int pair) {
    Near n = pairs.get(pair);
    List<Chosen> out = new ArrayList<>();
    Pose zeroA = poseA(pair, new double[2 * size]);
    Pose zeroB = poseB(pair, new double[2 * size]);
    for (HalfPlane w : n.outline().ways(zeroA, zeroB, options.gapMm())) {
      if (relief == 0 || w.corner() == null) {
        out.add(new Chosen(pair, w, n.scatters() ? z * n.sd(w.nx(), w.ny()) : 0));
      }
    }
    return out;
  }

  private static double square(double[] x) {
    double sum = 0;
    for (double v : x) {
      sum += v * v;
    }
    return sum;
  }

  private Pose poseA(int pair, double[] x) {
    return pose(pairs.get(pair).a(), ofA[pair], x);
  }

  private Pose poseB(int pair, double[] x) {
    return pose(pairs.get(pair).b(), ofB[pair], x);
  }

  private Pose pose(RoomItem i, int v, double[] x) {
    return v < 0 ? i.pose() : i.moved(x[2 * v], x[2 * v + 1], turn[v]);
  }

  /** The half-space of moves that a chosen half-plane means. */
  private ConvexProgram.Row row(Chosen c) {
    return row(
        c.pair,
        c.way.nx(),
        c.way.ny(),
        c.way.least() + c.extra * c.way.slope() - relief + (relief == 0 ? SLACK_MM : 0));
  }

  private ConvexProgram.Row row(int pair, double nx, double ny, double least) {
    Near n = pairs.get(pair);
    double[] of = new double[2 * size];
    add(of, ofA[pair], n.a().boardDeg(), -nx, -ny);
    add(of, ofB[pair], n.b().boardDeg(), nx, ny);
    double now =
        nx * (n.b().pose().xMm() - n.a().pose().xMm())
            + ny * (n.b().pose().yMm() - n.a().pose().yMm());
    return new ConvexProgram.Row(of, least - now);
  }

  private static void add(double[] of, int v, double boardDeg, double nx, double ny) {
    if (v >= 0) {
      double c = Angles.cosDeg(boardDeg);
      double s = Angles.sinDeg(boardDeg);
      of[2 * v] += c * nx + s * ny;
      of[2 * v + 1] += -s * nx + c * ny;
    }
  }

  /** Shortest moves for a choice; null when there are none. */
  private double @Nullable [] solve(List<Chosen> chosen) {
    double[] last = null;
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<ConvexProgram.Row> rows = new ArrayList<>();
      for (Chosen c : chosen) {
        Corner corner = c.way.corner();
        if (corner == null) {
          rows.add(row(c));
        } else {
          rows.add(last == null ? row(c) : round(c, corner, last));
          rows.addAll(between(c, corner));
        }
      }
      double[] x = within(rows);
      if (x == null) {
        return null;
      }
      boolean corners = chosen.stream().anyMatch(c -> c.way.corner() != null);
      boolean again = last == null ? corners : moved(x, last) > STILL_MM && corners;
      again |= relief == 0 && calibrate(chosen, x);
      last = x;
      if (!again) {
        break;
      }
    }
    return last;
  }

  private static double moved(double[] x, double[] y) {
    double most = 0;
    for (int k = 0; k < x.length; k++) {
      most = Math.max(most, Math.abs(x[k] - y[k]));
    }
    return most;
  }

  /** At a corner: the tangent of the arc where the last solution sees it. */
  private ConvexProgram.Row round(Chosen c, Corner corner, double[] x) {
    Pose a = poseA(c.pair, x);
    Pose b = poseB(c.pair, x);
    double vx = b.xMm() - a.xMm() - corner.x();
    double vy = b.yMm() - a.yMm() - corner.y();
    double length = Math.hypot(vx, vy);
    double nx = length > 0 ? vx / length : c.way.nx();
    double ny = length > 0 ? vy / length : c.way.ny();
    double least = nx * corner.x() + ny * corner.y() + options.gapMm() + c.extra + SLACK_MM;
    return row(c.pair, nx, ny, least);
  }

  /** At a corner: both sides end where the arc does. */
  private List<ConvexProgram.Row> between(Chosen c, Corner k) {
    return List.of(
        row(c.pair, -k.fromY(), k.fromX(), -k.fromY() * k.x() + k.fromX() * k.y()),
        row(c.pair, k.toY(), -k.toX(), k.toY() * k.x() - k.toX() * k.y()));
  }

  /** Shortest moves in half-spaces, no longer than allowed, within the land limits. */
  private double @Nullable [] within(List<ConvexProgram.Row> chosen) {
    for (int n = 0; n < MOST_CUTS; n++) {
      List<ConvexProgram.Row> rows = new ArrayList<>(chosen);
      rows.addAll(cuts);
      double[] x = ConvexProgram.shortest(2 * size, rows);
      if (x == null) {
        return null;
      }
      List<ConvexProgram.Row> more = lands.missed(x, turn);
      for (int v = 0; v < size; v++) {
        double length = Math.hypot(x[2 * v], x[2 * v + 1]);
        if (length > options.maxMm() + ROUNDING_MM) {
          double[] of = new double[2 * size];
          of[2 * v] = -x[2 * v] / length;
          of[2 * v + 1] = -x[2 * v + 1] / length;
          more.add(new ConvexProgram.Row(of, -(options.maxMm() - ROUNDING_MM)));
        }
      }
      more.removeIf(r -> r.missed(x) <= ROUNDING_MM);
      if (more.isEmpty()) {
        return x;
      }
      cuts.addAll(more);
    }
    return null;
  }

  /**
   * Sets what scatter asks for beyond the gap so that the probability is what is wanted where the
   * solution stands; true when that changed.
   */
  private boolean calibrate(List<Chosen> chosen, double[] x) {
    boolean changed = false;
    for (Chosen c : chosen) {
      Near n = pairs.get(c.pair);
      boolean active = row(c).missed(x) > -STILL_MM || c.way.corner() != null;
      if (!n.scatters() || !active && below(c.pair, x) <= options.risk()) {
        continue;
      }
      Pose a = poseA(c.pair, x);
      Pose b = poseB(c.pair, x);
      double sd = n.sd(c.way.nx(), c.way.ny());
      double t = 0;
      for (int k = 0; k < 4; k++) {
        Pose shifted =
            new Pose(b.xMm() + t * c.way.nx(), b.yMm() + t * c.way.ny(), b.rotationDeg());
        double p = Math.min(1 - 1e-6, Math.max(1e-9, n.below(options.gapMm(), a, shifted)));
        double step = sd * (z - NormalTail.scoreAbove(p));
        t += step;
        if (Math.abs(step) < 1e-3 * sd) {
          break;
        }
      }
      if (Math.abs(t) > 2e-3 * sd) {
        c.extra += c.way.corner() != null ? t : t - row(c).missed(x);
        changed = true;
      }
    }
    return changed;
  }

  private double below(int pair, double[] x) {
    return pairs.get(pair).below(options.gapMm(), poseA(pair, x), poseB(pair, x));
  }

  /** The pair without a choice that is missed most; -1 when none is. */
  private int mostMissed(double[] x, List<Chosen> chosen) {
    int worst = -1;
    double most = 0;
    for (int i = 0; i < pairs.size(); i++) {
      int pair = i;
      if (chosen.stream().anyMatch(c -> c.pair == pair)) {
        continue;
      }
      double m = missed(i, x);
      if (m > most) {
        most = m;
        worst = i;
      }
    }
    return worst;
  }

  /** By how much a pair misses what is wanted of it; 0 when it does not. */
  private double missed(int i, double[] x) {
    Near n = pairs.get(i);
    double gap = n.gap(poseA(i, x), poseB(i, x));
    if (relief > 0) {
      double least = Double.POSITIVE_INFINITY;
      for (Chosen c : ways(i)) {
        least = Math.min(least, row(c).missed(x));
      }
      return least > ROUNDING_MM ? least : 0;
    }
    if (gap < options.gapMm() - ROUNDING_MM) {
      return 1 + options.gapMm() - gap;
    }
    double below = n.scatters() ? below(i, x) : 0;
    return below > options.risk() ? below : 0;
  }

  private List<Near> binding(double[] x, List<Chosen> chosen) {
    List<Near> out = new ArrayList<>();
    for (Chosen c : chosen) {
      if (c.way.corner() != null || row(c).missed(x) > -1e-5) {
        out.add(pairs.get(c.pair));
      }
    }
    return out;
  }
}
