package org.padtrue.load;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** How often refs are repeated in a placement file. */
final class Repeats {
  private Repeats() {}

  /**
   * How often nearly every ref of the fitted rows occurs.
   *
   * @return that number when at least nine in ten refs share it, else 1
   */
  static int timesEveryRef(List<PlacementRow> rows) {
    Map<String, Integer> counts = new HashMap<>();
    rows.stream().filter(PlacementRow::fitted).forEach(r -> counts.merge(r.ref(), 1, Integer::sum));
    Map<Integer, Integer> refs = new TreeMap<>();
    counts.values().forEach(n -> refs.merge(n, 1, Integer::sum));
    for (Map.Entry<Integer, Integer> e : refs.entrySet()) {
      if (e.getKey() > 1 && e.getValue() >= 0.9 * counts.size()) {
        return e.getKey();
      }
    }
    return 1;
  }
}
