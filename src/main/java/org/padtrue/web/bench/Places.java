package org.padtrue.web.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/** Every placement of a panel by its key, panel/column/row/ref; panels of a job are alike. */
final class Places {
  private final Map<String, Place> byPlace = new LinkedHashMap<>();

  /**
   * One placement.
   *
   * @param key panel/column/row/ref
   * @param board its board
   * @param placement the placement
   * @param nominal pose in the panel frame
   */
  record Place(String key, BoardIndex board, Placement placement, Pose nominal) {
    /** The same placement on a panel of another name. */
    Place on(String panel) {
      return new Place(panel + "/" + onPanel(key), board, placement, nominal);
    }
  }

  private Places(Job job) {
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        String key = "P1/" + b.index() + "/" + p.ref();
        byPlace.put(onPanel(key), new Place(key, b.index(), p, p.pose().seenFrom(b.origin())));
      }
    }
  }

  static Places of(Job job) {
    return new Places(job);
  }

  /** The panel of a key. */
  static String panel(String key) {
    return key.split("/", 2)[0];
  }

  /** A key without its panel: column/row/ref. */
  static String onPanel(String key) {
    return key.substring(key.indexOf('/') + 1);
  }

  /** The placement of a key; the panel's name may be any. */
  Optional<Place> find(String key) {
    Place p = byPlace.get(onPanel(key));
    return p == null || !key.contains("/") ? Optional.empty() : Optional.of(p.on(panel(key)));
  }

  /** The placement that a person means by R7 or 2/1/R7; empty when none or several. */
  Optional<Place> named(String text) {
    String t = text.strip().toLowerCase(Locale.ROOT);
    List<Place> found = new ArrayList<>();
    for (Place p : byPlace.values()) {
      String key = p.key().toLowerCase(Locale.ROOT);
      if (key.endsWith("/" + t) && (t.contains("/") || key.split("/", 4)[3].equals(t))) {
        found.add(p);
      }
    }
    return found.isEmpty() || found.size() > 1 && t.contains("/")
        ? Optional.empty()
        : Optional.of(found.get(0));
  }
}
