package org.padtrue.report.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.report.json.StoredRoom;

/**
 * A placement that was moved from where the design has it.
 *
 * @param ref ref, or column/row/ref
 * @param add what was added to its nominal position, mm and degrees, the placement list's axes
 * @param reason why
 */
public record MovedPlacement(String ref, Xyr add, String reason) {

  /** The moves of the groups that were solved; none without a file. */
  static List<MovedPlacement> of(@Nullable StoredRoom room) {
    List<MovedPlacement> out = new ArrayList<>();
    if (room == null) {
      return out;
    }
    for (StoredRoom.Group g : room.groups()) {
      for (StoredRoom.Move m : g.solved() ? g.moves() : List.<StoredRoom.Move>of()) {
        out.add(new MovedPlacement(m.ref(), m.add(), reason(g, m, room.gapMm())));
      }
    }
    return out;
  }

  private static String reason(StoredRoom.Group g, StoredRoom.Move m, double wanted) {
    TreeSet<String> others = new TreeSet<>();
    double least = Double.POSITIVE_INFINITY;
    for (StoredRoom.Pair p : g.pairs()) {
      String a = ref(p.a());
      String b = ref(p.b());
      boolean own = m.ref().equals(a) || m.ref().equals(p.a());
      boolean other = m.ref().equals(b) || m.ref().equals(p.b());
      if (own || other) {
        others.add(own ? b : a);
        least = Math.min(least, p.gapMm());
      }
    }
    return String.format(
        Locale.ROOT,
        "gap to %s was %.3f mm%s",
        String.join(", ", others),
        least,
        Double.isNaN(wanted) ? "" : String.format(Locale.ROOT, ", %.3f mm wanted", wanted));
  }

  private static String ref(String id) {
    return id.substring(id.indexOf('/', id.indexOf('/') + 1) + 1);
  }
}
