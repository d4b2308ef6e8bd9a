package org.padtrue.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.plan.model.MeasuringPlanCandidate;

/**
 * Keeps the placements worth considering when there are very many. Placements of one type,
 * rotation, nozzle, feeder and head tell the same but for where they sit, and the further out they
 * sit the more they tell of rotation and scale; so each such cell keeps its outermost ones in eight
 * directions, one direction after the other, the next cell beginning with the next direction.
 */
final class MeasuringPlanThinning {
  /** Candidates that are searched without thinning. */
  static final int LIMIT = 2000;

  private static final int DIRECTIONS = 8;

  private MeasuringPlanThinning() {}

  /**
   * Thins candidates.
   *
   * @param all every candidate
   * @param limit how many to keep, roughly; a cell always keeps one
   * @return indices that stay, in ascending order; all of them when there are no more than the
   *     limit
   */
  static List<Integer> of(List<MeasuringPlanCandidate> all, int limit) {
    if (all.size() <= limit) {
      return upTo(all.size());
    }
    Collection<List<Integer>> cells = cells(all);
    int perCell = Math.max(1, limit / cells.size());
    List<Integer> kept = new ArrayList<>();
    int first = 0;
    for (List<Integer> cell : cells) {
      kept.addAll(cell.size() <= perCell ? cell : outermost(all, cell, perCell, first++));
    }
    kept.sort(Comparator.naturalOrder());
    return kept;
  }

  private static List<Integer> upTo(int n) {
    Integer[] i = new Integer[n];
    Arrays.setAll(i, k -> k);
    return List.of(i);
  }

  private static Collection<List<Integer>> cells(List<MeasuringPlanCandidate> all) {
    Map<List<Object>, List<Integer>> cells = new LinkedHashMap<>();
    for (int i = 0; i < all.size(); i++) {
      MeasuringPlanCandidate c = all.get(i);
      List<Object> key =
          List.of(c.placement().part(), c.pose().rotationDeg(), c.placement().levels());
      cells.computeIfAbsent(key, k -> new ArrayList<>()).add(i);
    }
    return cells.values();
  }

  private static List<Integer> outermost(
      List<MeasuringPlanCandidate> all, List<Integer> cell, int keep, int first) {
    List<List<Integer>> byDirection = new ArrayList<>();
    for (int d = 0; d < DIRECTIONS; d++) {
      double angle = 2 * Math.PI * d / DIRECTIONS;
      double cos = Math.cos(angle);
      double sin = Math.sin(angle);
      List<Integer> sorted = new ArrayList<>(cell);
      sorted.sort(
          Comparator.comparingDouble(
              i -> -(cos * all.get(i).pose().xMm() + sin * all.get(i).pose().yMm())));
      byDirection.add(sorted);
    }
    boolean[] taken = new boolean[all.size()];
    int[] next = new int[DIRECTIONS];
    List<Integer> kept = new ArrayList<>();
    for (int k = 0; k < keep; k++) {
      int d = (first + k) % DIRECTIONS;
      while (taken[byDirection.get(d).get(next[d])]) {
        next[d]++;
      }
      int i = byDirection.get(d).get(next[d]);
      taken[i] = true;
      kept.add(i);
    }
    return kept;
  }
}
