package org.padtrue.room;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.land.risk.Risk;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Land limits of the items of a group, as half-spaces of the moves. What is inside the limits, and
 * what is outside with no more than a probability, is convex (the logarithm of the chance of being
 * inside is concave for normal scatter), so a tangent cut at any point holds for all.
 */
final class LandRows {
  private static final double STEP_MM = 1e-3;

  /** Probabilities are known to some percent; a little less is asked for than is let pass. */
  private static final double SAFE = 0.985;

  private static final double ROUNDED = 0.995;

  /** Chance of being inside below which its logarithm says nothing. */
  private static final double LOST = 1e-3;

  private static final double ROUNDING_MM = 1e-9;

  private final List<RoomItem> items;
  private final List<Integer> variable;
  private final Risk risk;
  private final double allowed;
  private final double slack;
  private final double[] leastMargin;
  private final double[] mostRisk;

  /**
   * Prepares the limits.
   *
   * @param items items that may move
   * @param variable which variable moves each
   * @param allowed probability of being outside that is let pass
   * @param slack added to margins, mm, for what rounding takes off
   * @param asNow true where an item that is beyond its limit now may stay as it is
   */
  LandRows(
      List<RoomItem> items,
      List<Integer> variable,
      Risk risk,
      double allowed,
      double slack,
      boolean asNow) {
    this.items = items;
    this.variable = variable;
    this.risk = risk;
    this.allowed = allowed;
    this.slack = slack;
    leastMargin = new double[items.size()];
    mostRisk = new double[items.size()];
    for (int i = 0; i < items.size(); i++) {
      RoomItem it = items.get(i);
      double margin = it.margin(it.pose());
      leastMargin[i] = asNow && margin < slack ? margin - slack : 0;
      double now = asNow ? outside(it, it.pose()) : 0;
      mostRisk[i] = now > allowed * SAFE ? now / SAFE + ROUNDING_MM : allowed;
    }
  }

  /** Probability of being outside at a pose; NaN where not judged or where nothing scatters. */
  double outside(RoomItem it, Pose at) {
    DeviationDistribution d = it.spread();
    return d == null || !it.judge().judged()
        ? Double.NaN
        : risk.outside(it.judge(), it.spreadAt(at, d)).value();
  }

  /** Half-spaces that a solution misses; empty when all limits are kept. */
  List<ConvexProgram.Row> missed(double[] x, double[] turn) {
    List<ConvexProgram.Row> rows = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      ConvexProgram.Row r = row(i, x, turn);
      if (r != null) {
        rows.add(r);
      }
    }
    return rows;
  }

  /** Items that are at their limits, or within a little of them. */
  List<RoomItem> atLimit(double[] x, double[] turn, double within) {
    List<RoomItem> out = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      RoomItem it = items.get(i);
      Pose p = pose(i, x, turn);
      double margin = it.margin(p);
      double out1 = outside(it, p);
      if (margin < slack + leastMargin[i] + within || out1 > 0.9 * mostRisk[i] && out1 > 0) {
        out.add(it);
      }
    }
    return out;
  }

  private Pose pose(int i, double[] x, double[] turn) {
    int v = variable.get(i);
    return items.get(i).moved(x[2 * v], x[2 * v + 1], turn[v]);
  }

  private ConvexProgram.@Nullable Row row(int i, double[] x, double[] turn) {
    RoomItem it = items.get(i);
    if (!it.judge().judged()) {
      return null;
    }
    Pose p = pose(i, x, turn);
    double wanted = slack + leastMargin[i];
    double margin = it.margin(p);
    if (margin < wanted - ROUNDING_MM) {
      return tangent(i, x, margin, wanted, q -> it.margin(q), p);
    }
    DeviationDistribution d = it.spread();
    if (d == null) {
      return null;
    }
    double chance = outside(it, p);
    // what rounding of the moves adds must not pass the limit
    if (!(chance > mostRisk[i] * ROUNDED)) {
      return null;
    }
    if (1 - chance < LOST) {
      return null;
    }
    double most = mostRisk[i] * SAFE;
    return tangent(i, x, Math.log1p(-chance), Math.log1p(-most), q -> log(it, q), p);
  }

  private double log(RoomItem it, Pose q) {
    return Math.log1p(-Math.min(1 - LOST * LOST, outside(it, q)));
  }

  private ConvexProgram.Row tangent(
      int i,
      double[] x,
      double value,
      double wanted,
      java.util.function.ToDoubleFunction<Pose> of,
      Pose p) {
    double gx = slope(of, p, STEP_MM, 0);
    double gy = slope(of, p, 0, STEP_MM);
    double b = items.get(i).boardDeg();
    double c = Angles.cosDeg(b);
    double s = Angles.sinDeg(b);
    int v = variable.get(i);
    double[] row = new double[x.length];
    // slopes along the panel's axes, moves along the board's
    row[2 * v] = c * gx + s * gy;
    row[2 * v + 1] = -s * gx + c * gy;
    double least = wanted - value + row[2 * v] * x[2 * v] + row[2 * v + 1] * x[2 * v + 1];
    return new ConvexProgram.Row(row, least);
  }

  private static double slope(
      java.util.function.ToDoubleFunction<Pose> of, Pose p, double dx, double dy) {
    Pose up = new Pose(p.xMm() + dx, p.yMm() + dy, p.rotationDeg());
    Pose down = new Pose(p.xMm() - dx, p.yMm() - dy, p.rotationDeg());
    return (of.applyAsDouble(up) - of.applyAsDouble(down)) / (2 * STEP_MM);
  }
}
