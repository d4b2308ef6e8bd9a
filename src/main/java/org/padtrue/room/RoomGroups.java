package org.padtrue.room;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** Sets of keys that belong together, because a pair joins them. */
final class RoomGroups {
  private final Map<String, String> root = new LinkedHashMap<>();

  void join(String a, String b) {
    String ra = rootOf(a);
    String rb = rootOf(b);
    if (!ra.equals(rb)) {
      root.put(ra.compareTo(rb) < 0 ? rb : ra, ra.compareTo(rb) < 0 ? ra : rb);
    }
  }

  private String rootOf(String k) {
    String r = k;
    String above = root.getOrDefault(r, r);
    while (!r.equals(above)) {
      r = above;
      above = root.getOrDefault(r, r);
    }
    root.put(r, r);
    root.put(k, r);
    return r;
  }

  /** The sets, their keys sorted. */
  List<List<String>> all() {
    Map<String, Collection<String>> sets = new LinkedHashMap<>();
    for (String k : new ArrayList<>(root.keySet())) {
      sets.computeIfAbsent(rootOf(k), x -> new TreeSet<>()).add(k);
    }
    return sets.values().stream().map(List::copyOf).toList();
  }
}
