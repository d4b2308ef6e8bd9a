package org.padtrue.load.article;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.padtrue.load.text.Nearest;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Unplaced;

/** Placements of a job by ref. A ref typed in other letters' case is found when only one fits. */
final class RefIndex {
  private static final int SHOWN = 3;

  private final Map<String, Integer> exact = new HashMap<>();
  private final Map<String, Integer> anyCase = new HashMap<>();
  private final Map<String, Unplaced> unplaced = new HashMap<>();

  RefIndex(Job job) {
    List<Placement> all = job.placements();
    for (int i = 0; i < all.size(); i++) {
      exact.put(all.get(i).ref(), i);
      anyCase.merge(upper(all.get(i).ref()), i, (a, b) -> -1);
    }
    job.unplaced().forEach(u -> unplaced.putIfAbsent(u.ref(), u));
  }

  private static String upper(String ref) {
    return ref.toUpperCase(Locale.ROOT);
  }

  /** Number of a placement, or -1. */
  int find(String ref) {
    Integer i = exact.get(ref);
    return i != null ? i : anyCase.getOrDefault(upper(ref), -1);
  }

  /** Why a ref is not placed although the placement file has it. */
  Optional<Unplaced> unplaced(String ref) {
    return Optional.ofNullable(unplaced.get(ref));
  }

  /** What to do about a ref that is not known; the search is left out when many are wrong. */
  String advice(String ref, boolean search) {
    List<String> near = search ? Nearest.of(ref, exact.keySet(), SHOWN) : List.of();
    return near.isEmpty() ? "correct or remove the row" : "did you mean " + TextPieces.or(near);
  }
}
