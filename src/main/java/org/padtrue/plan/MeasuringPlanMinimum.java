package org.padtrue.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import org.padtrue.plan.model.MeasuringPlanCandidate;
import org.padtrue.plan.model.MeasuringPlanFactor;

/**
 * The placements that a plan has in any case: of every part type, nozzle, feeder and head some, as
 * far as there are so many. For each level they are taken from boards that it has fewest of, then
 * at rotations that it has fewest of (only another rotation tells what turns with the part from
 * what stays with the panel), then where they serve other levels too, then far from each other.
 */
public final class MeasuringPlanMinimum {
  private final List<MeasuringPlanCandidate> all;
  private final Map<String, List<Integer>> members = new LinkedHashMap<>();
  private final Map<String, MeasuringPlanFactor> factors = new HashMap<>();
  private final List<List<String>> levels = new ArrayList<>();
  private final Map<String, List<Integer>> chosen = new HashMap<>();
  private final List<Integer> picks = new ArrayList<>();
  private final boolean[] in;

  private MeasuringPlanMinimum(List<MeasuringPlanCandidate> all) {
    this.all = all;
    in = new boolean[all.size()];
    for (MeasuringPlanFactor f : MeasuringPlanFactor.LEVELS) {
      for (int i = 0; i < all.size(); i++) {
        String level = f.level(all.get(i));
        if (f.part()) {
          levels.add(new ArrayList<>());
        }
        if (level != null) {
          String key = f.word() + " " + level;
          factors.put(key, f);
          members.computeIfAbsent(key, k -> new ArrayList<>()).add(i);
          levels.get(i).add(key);
        }
      }
    }
  }

  /**
   * The placements.
   *
   * @param all candidates
   * @param each how many of every level of a factor
   * @param most no more than this in all: rounds that do not fit are left out whole
   * @return indices, in rounds: first one of every level, then a second
   */
  public static List<Integer> of(
      List<MeasuringPlanCandidate> all, ToIntFunction<MeasuringPlanFactor> each, int most) {
    return of(all, each, most, Integer.MAX_VALUE);
  }

  /**
   * The same, cut off.
   *
   * @param first no more than the first so many, within a round if need be
   */
  public static List<Integer> of(
      List<MeasuringPlanCandidate> all,
      ToIntFunction<MeasuringPlanFactor> each,
      int most,
      int first) {
    MeasuringPlanMinimum m = new MeasuringPlanMinimum(all);
    int whole = 0;
    int rounds = MeasuringPlanFactor.LEVELS.stream().mapToInt(each).max().orElse(0);
    for (int round = 1; round <= rounds; round++) {
      for (Map.Entry<String, List<Integer>> e : m.members.entrySet()) {
        if (round
            <= each.applyAsInt(
                m.factors.getOrDefault(e.getKey(), MeasuringPlanFactor.LEVELS.get(0)))) {
          m.fill(e.getKey(), e.getValue(), Math.min(round, e.getValue().size()), round);
        }
      }
      if (m.picks.size() > most) {
        break;
      }
      whole = m.picks.size();
      if (whole >= first) {
        break;
      }
    }
    return List.copyOf(m.picks.subList(0, Math.min(whole, first)));
  }

  private void fill(String level, List<Integer> from, int wanted, int round) {
    while (count(level) < wanted) {
      int best = -1;
      double[] bestScore = new double[0];
      for (int i : from) {
        if (!in[i]) {
          double[] score = score(level, i, round);
          if (best < 0 || better(score, bestScore)) {
            best = i;
            bestScore = score;
          }
        }
      }
      take(best);
    }
  }

  private int count(String level) {
    return chosen.getOrDefault(level, List.of()).size();
  }

  private void take(int i) {
    in[i] = true;
    picks.add(i);
    levels.get(i).forEach(k -> chosen.computeIfAbsent(k, x -> new ArrayList<>()).add(i));
  }

  /** Larger is better, the first number first. */
  private double[] score(String level, int i, int round) {
    MeasuringPlanCandidate c = all.get(i);
    int sameBoard = 0;
    int sameRotation = 0;
    double nearest = Double.POSITIVE_INFINITY;
    for (int k : chosen.getOrDefault(level, List.of())) {
      MeasuringPlanCandidate o = all.get(k);
      sameBoard += o.board().equals(c.board()) ? 1 : 0;
      sameRotation += alike(o, c) ? 1 : 0;
      nearest = Math.min(nearest, distance(o, c));
    }
    int boardUse = 0;
    int rotationUse = 0;
    double nearestAny = Double.POSITIVE_INFINITY;
    for (int k : picks) {
      MeasuringPlanCandidate o = all.get(k);
      boardUse += o.board().equals(c.board()) ? 1 : 0;
      rotationUse += alike(o, c) ? 1 : 0;
      nearestAny = Math.min(nearestAny, distance(o, c));
    }
    int serves = 0;
    for (String k : levels.get(i)) {
      serves += count(k) < Math.min(round, members.getOrDefault(k, List.of()).size()) ? 1 : 0;
    }
    return new double[] {
      -sameBoard, -sameRotation, serves, -boardUse, -rotationUse, nearest, nearestAny
    };
  }

  private static boolean alike(MeasuringPlanCandidate a, MeasuringPlanCandidate b) {
    double turn = Math.abs(a.pose().rotationDeg() - b.pose().rotationDeg()) % 360;
    return Math.min(turn, 360 - turn) < 1;
  }

  private static double distance(MeasuringPlanCandidate a, MeasuringPlanCandidate b) {
    return Math.hypot(a.pose().xMm() - b.pose().xMm(), a.pose().yMm() - b.pose().yMm());
  }

  private static boolean better(double[] a, double[] b) {
    for (int k = 0; k < a.length; k++) {
      if (a[k] != b[k]) {
        return a[k] > b[k];
      }
    }
    return false;
  }
}
