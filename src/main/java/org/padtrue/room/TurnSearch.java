package org.padtrue.room;

import org.jspecify.annotations.Nullable;

/**
 * Turns as well as shifts, where turns are asked for: steps in each turn, halved when none helps.
 * What a turn costs is the way of the outline's farthest corner, squared, beside the squared
 * shifts.
 */
final class TurnSearch {
  private static final double FIRST_DEG = 2;
  private static final double LAST_DEG = 0.02;
  private static final int MOST = 160;

  /** Solves for shifts at given turns. */
  @FunctionalInterface
  interface Shifts {
    LeastMoves.@Nullable Found at(double[] turn, double relief, boolean asNow);
  }

  /** The best of all: shifts and turns, degrees. */
  record Turned(LeastMoves.Found found, double[] turn) {}

  private final Shifts shifts;
  private final double[] reach;
  private final int[] turnable;
  private final double most;

  TurnSearch(Shifts shifts, double[] reach, int[] turnable, double most) {
    this.shifts = shifts;
    this.reach = reach.clone();
    this.turnable = turnable.clone();
    this.most = most;
  }

  /**
   * Searches.
   *
   * @param straight the answer without turns; null when there is none
   * @return null when turns do not help either
   */
  @Nullable Turned best(LeastMoves.@Nullable Found straight) {
    double[] turn = new double[reach.length];
    Turned best = straight == null ? null : new Turned(straight, turn);
    double least = straight == null ? Double.POSITIVE_INFINITY : straight.square();
    double step = FIRST_DEG;
    int tried = 0;
    while (step >= LAST_DEG && tried < MOST) {
      boolean better = false;
      for (int v : turnable) {
        for (int way = -1; way <= 1; way += 2) {
          double[] t = (best == null ? turn : best.turn()).clone();
          t[v] = Math.rint((t[v] + way * step) * 100) / 100;
          tried++;
          double own = cost(t);
          LeastMoves.Found f = own < least && allowed(t) ? shifts.at(t, 0, false) : null;
          if (f != null && f.square() + own < least * (1 - 1e-6)) {
            least = f.square() + own;
            best = new Turned(f, t);
            better = true;
          }
        }
      }
      step = better ? step : step / 2;
    }
    return best;
  }

  private boolean allowed(double[] turn) {
    for (int v : turnable) {
      if (reach[v] * Math.toRadians(Math.abs(turn[v])) > most) {
        return false;
      }
    }
    return true;
  }

  private double cost(double[] turn) {
    double sum = 0;
    for (int v : turnable) {
      double way = reach[v] * Math.toRadians(turn[v]);
      sum += way * way;
    }
    return sum;
  }
}
