package org.padtrue.room;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.risk.Risk;

/**
 * Moves of one group: searched strictly, then with placements beyond their limits now left as they
 * are, then with gaps as near to the wanted ones as can be had. A neighbour that holds the moves
 * where they are joins the group.
 */
final class GroupSearch {
  /** More placements than this are not moved as one. */
  private static final int MOST_KEYS = 14;

  private static final int HALVINGS = 14;
  private static final double STILL_MM = 5e-6;
  private static final double EASIER_MM = 5e-4;

  private final Neighbourhood around;
  private final RoomOptions options;
  private final Risk risk;
  private final List<String> keys;

  GroupSearch(Neighbourhood around, RoomOptions options, Risk risk, List<String> keys) {
    this.around = around;
    this.options = options;
    this.risk = risk;
    this.keys = new ArrayList<>(keys);
  }

  /**
   * What was found.
   *
   * @param keys keys of the group, neighbours that joined included
   * @param moves x, y (mm) and rotation (degrees) by key, those that move only
   * @param pairs every pair of the group, too near or not
   * @param solved true when all is as wanted
   * @param complete false when the search was cut short
   * @param reliefMm by how much gaps are missed, mm
   * @param hindrances what holds the moves where they are, when not solved
   */
  record Answer(
      List<String> keys,
      Map<String, double[]> moves,
      List<Near> pairs,
      boolean solved,
      boolean complete,
      double reliefMm,
      List<String> hindrances) {}

  Answer answer() {
    while (true) {
      Setting s = new Setting();
      LeastMoves.Found f = s.search(new double[s.free.size()], 0, false);
      if (f == null) {
        f = s.search(new double[s.free.size()], 0, true);
      }
      double[] turn = new double[s.free.size()];
      if (s.turnable().length > 0) {
        TurnSearch t = new TurnSearch(s::search, s.reaches(), s.turnable(), options.maxMm());
        TurnSearch.Turned best = t.best(f);
        if (best != null) {
          f = best.found();
          turn = best.turn();
        }
      }
      if (f == null && grow(s.reachable())) {
        continue;
      }
      if (f == null) {
        return s.compromise();
      }
      if (grow(f.binding())) {
        continue;
      }
      return s.answer(f, turn, true, 0, List.of());
    }
  }

  /** Takes in neighbours that stand in the way; true when there were some. */
  private boolean grow(List<Near> binding) {
    int before = keys.size();
    for (Near n : binding) {
      for (String k : List.of(n.a().key(), n.b().key())) {
        if (!keys.contains(k) && !options.fixed().contains(k) && keys.size() < MOST_KEYS) {
          keys.add(k);
        }
      }
    }
    return keys.size() > before;
  }

  /** The group as it is now. */
  private final class Setting {
    final List<String> free = keys.stream().filter(k -> !options.fixed().contains(k)).toList();
    final List<Near> pairs = around.pairsOf(keys);
    final List<Near> distinct = Neighbourhood.distinct(pairs);
    final int[] ofA = new int[distinct.size()];
    final int[] ofB = new int[distinct.size()];
    final List<RoomItem> items = new ArrayList<>();
    final List<Integer> variable = new ArrayList<>();

    Setting() {
      for (int i = 0; i < ofA.length; i++) {
        ofA[i] = free.indexOf(distinct.get(i).a().key());
        ofB[i] = free.indexOf(distinct.get(i).b().key());
      }
      for (RoomItem it : around.items(free)) {
        items.add(it);
        variable.add(free.indexOf(it.key()));
      }
    }

    LandRows lands(boolean asNow) {
      return new LandRows(items, variable, risk, options.risk(), LeastMoves.SLACK_MM, asNow);
    }

    LeastMoves.@Nullable Found search(double[] turn, double relief, boolean asNow) {
      if (free.isEmpty()) {
        return null;
      }
      return new LeastMoves(free.size(), distinct, ofA, ofB, lands(asNow), options, turn, relief)
          .search();
    }

    int[] turnable() {
      return java.util.stream.IntStream.range(0, free.size())
          .filter(v -> options.turned().contains(free.get(v)))
          .toArray();
    }

    double[] reaches() {
      double[] r = new double[free.size()];
      for (int i = 0; i < distinct.size(); i++) {
        if (ofA[i] >= 0) {
          r[ofA[i]] = distinct.get(i).outline().reachA();
        }
        if (ofB[i] >= 0) {
          r[ofB[i]] = distinct.get(i).outline().reachB();
        }
      }
      return r;
    }

    /** Pairs that a move may bring too near, the nearest first. */
    List<Near> reachable() {
      return distinct.stream()
          .filter(n -> n.gap(n.a().pose(), n.b().pose()) < options.gapMm() + options.maxMm())
          .sorted(Comparator.comparingDouble(n -> n.gap(n.a().pose(), n.b().pose())))
          .toList();
    }

    /** Gaps as near to the wanted ones as can be had. */
    Answer compromise() {
      double[] none = new double[free.size()];
      double high = 1e-3;
      LeastMoves.Found best = null;
      // leaving all as it is needs no move, so some relief always does, unless all are held
      for (int k = 0; k < 16 && best == null && !free.isEmpty(); k++) {
        high *= 2;
        best = search(none, high, true);
      }
      if (best == null) {
        return answer(null, none, false, Double.NaN, List.of());
      }
      double low = high / 2;
      for (int k = 0; k < HALVINGS; k++) {
        double mid = (low + high) / 2;
        LeastMoves.Found f = search(none, mid, true);
        if (f == null) {
          low = mid;
        } else {
          high = mid;
          best = f;
        }
      }
      // at the very end of what can be had, limits that only just meet leave odd moves; a little
      // less
      LeastMoves.Found easier = search(none, high + EASIER_MM, true);
      best = easier == null ? best : easier;
      return answer(best, none, false, high, hindrances(best));
    }

    private List<String> hindrances(LeastMoves.Found f) {
      Set<String> out = new LinkedHashSet<>();
      double[] turn = new double[free.size()];
      for (RoomItem it : lands(true).atLimit(f.x(), turn, 3e-3)) {
        out.add("the lands of " + it.key());
      }
      for (int v = 0; v < free.size(); v++) {
        if (Math.hypot(f.x()[2 * v], f.x()[2 * v + 1]) > options.maxMm() - 1e-3) {
          out.add("the longest move allowed, of " + free.get(v));
        }
      }
      for (Near n : distinct) {
        boolean near = n.gap(n.a().pose(), n.b().pose()) < options.gapMm();
        if (n.a().key().equals(n.b().key()) && near) {
          out.add("copies of " + n.a().key() + " on two boards, which move alike");
        }
      }
      for (Near n : f.binding()) {
        for (RoomItem it : List.of(n.a(), n.b())) {
          if (options.fixed().contains(it.key())) {
            out.add(it.key() + ", which stays");
          }
        }
      }
      return List.copyOf(out);
    }

    Answer answer(
        LeastMoves.@Nullable Found f,
        double[] turn,
        boolean solved,
        double relief,
        List<String> hindrances) {
      Map<String, double[]> moves = new LinkedHashMap<>();
      for (int v = 0; f != null && v < free.size(); v++) {
        double x = Math.rint(f.x()[2 * v] * 1e5) / 1e5;
        double y = Math.rint(f.x()[2 * v + 1] * 1e5) / 1e5;
        if (Math.hypot(x, y) > STILL_MM || turn[v] != 0) {
          moves.put(free.get(v), new double[] {x + 0.0, y + 0.0, turn[v]});
        }
      }
      List<Near> sorted = new ArrayList<>(pairs);
      sorted.sort(Comparator.comparingDouble(n -> n.gap(n.a().pose(), n.b().pose())));
      return new Answer(
          List.copyOf(keys), moves, sorted, solved, f != null && f.complete(), relief, hindrances);
    }
  }
}
