package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * The readings of one axis, with placements and operators numbered from 0 as they first appear.
 *
 * @param readings those that have a value on this axis
 * @param y their values
 * @param part number of the placement of each reading
 * @param operator number of the operator of each reading
 * @param parts names of the placements
 * @param operators names of the operators
 */
@SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
record GaugeSeries(
    List<GaugeReading> readings,
    double[] y,
    int[] part,
    int[] operator,
    List<String> parts,
    List<String> operators) {

  static GaugeSeries of(List<GaugeReading> all, ToDoubleFunction<GaugeReading> value) {
    List<GaugeReading> some =
        all.stream().filter(r -> !Double.isNaN(value.applyAsDouble(r))).toList();
    Map<String, Integer> parts = new LinkedHashMap<>();
    Map<String, Integer> operators = new LinkedHashMap<>();
    int[] part = new int[some.size()];
    int[] operator = new int[some.size()];
    for (int i = 0; i < some.size(); i++) {
      part[i] = number(parts, some.get(i).ref());
      operator[i] = number(operators, some.get(i).operator());
    }
    return new GaugeSeries(
        some,
        some.stream().mapToDouble(value).toArray(),
        part,
        operator,
        List.copyOf(parts.keySet()),
        List.copyOf(operators.keySet()));
  }

  private static int number(Map<String, Integer> seen, String name) {
    return seen.computeIfAbsent(name, k -> seen.size());
  }

  /** The same readings with other values. */
  GaugeSeries with(double[] values) {
    return new GaugeSeries(readings, values, part, operator, parts, operators);
  }

  int cell(int i) {
    return part[i] * operators.size() + operator[i];
  }

  int cells() {
    return parts.size() * operators.size();
  }

  /** Readings in each cell; optionally only those of one turn. */
  int[] counts(@Nullable Boolean turned) {
    int[] n = new int[cells()];
    for (int i = 0; i < y.length; i++) {
      if (turned == null || readings.get(i).turned() == turned) {
        n[cell(i)]++;
      }
    }
    return n;
  }

  /**
   * True when every cell holds the same number of readings, and of them the same number turned for
   * each placement of one operator.
   */
  boolean balanced() {
    int[] all = counts(null);
    int[] turned = counts(true);
    for (int p = 0; p < parts.size(); p++) {
      for (int o = 0; o < operators.size(); o++) {
        int c = p * operators.size() + o;
        if (all[c] != all[0] || turned[c] != turned[o]) {
          return false;
        }
      }
    }
    return true;
  }

  /** Number of the session (operator, trial, turn) of each reading. */
  int[] sessions() {
    Map<String, Integer> seen = new LinkedHashMap<>();
    int[] n = new int[y.length];
    for (int i = 0; i < n.length; i++) {
      GaugeReading r = readings.get(i);
      n[i] = number(seen, operator[i] + " " + r.turned() + " " + r.trial());
    }
    return n;
  }

  /** True when each session read each placement of the series exactly once. */
  boolean completeSessions() {
    Map<Integer, Integer> sizes = new LinkedHashMap<>();
    for (int k : sessions()) {
      sizes.merge(k, 1, Integer::sum);
    }
    return sizes.values().stream().allMatch(n -> n == parts.size());
  }

  /**
   * By part, operator, repeat; only for balanced readings. Repeats are in the order in which the
   * operator's sessions first appear, so that with complete sessions the k-th is one session.
   */
  double[][][] cube() {
    int[] session = sessions();
    double[][][] cube = new double[parts.size()][operators.size()][];
    for (List<Integer> cell : byCell()) {
      int first = cell.get(0);
      cube[part[first]][operator[first]] =
          cell.stream()
              .sorted(Comparator.comparingInt(i -> session[i]))
              .mapToDouble(i -> y[i])
              .toArray();
    }
    return cube;
  }

  /** Indices of the readings, by cell, empty cells left out. */
  List<List<Integer>> byCell() {
    Map<Integer, List<Integer>> cells = new LinkedHashMap<>();
    for (int i = 0; i < y.length; i++) {
      cells.computeIfAbsent(cell(i), k -> new ArrayList<>()).add(i);
    }
    return List.copyOf(cells.values());
  }
}
