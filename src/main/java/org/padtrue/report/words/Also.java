package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;

/**
 * What belongs to the answer besides the trims: types turned, terms undecided, suspect fiducials.
 */
public final class Also {
  private static final int MOST_NAMES = 6;

  private Also() {}

  /** All of it, one sentence each. */
  public static List<String> sentences(FirstArticleResult r) {
    List<String> list = new ArrayList<>(turned(r));
    List<String> names = undecided(r);
    if (!names.isEmpty()) {
      list.add(
          "Not decided: "
              + KeyWords.some(names, MOST_NAMES)
              + ". This article cannot tell; below stands what would.");
    }
    for (PanelResult p : r.panels()) {
      FiducialFit f = p.fiducials();
      if (f != null && f.lines().stream().anyMatch(FiducialFit.Line::suspect)) {
        list.add(
            "Suspect fiducial on panel "
                + p.panel()
                + ": "
                + String.join(
                    ", ",
                    f.lines().stream()
                        .filter(FiducialFit.Line::suspect)
                        .map(FiducialFit.Line::name)
                        .toList())
                + ". Look at it before the registration is changed.");
      }
    }
    return list;
  }

  /** Part types whose library orientation differs from the placement's. */
  static List<String> turned(FirstArticleResult r) {
    List<String> list = new ArrayList<>();
    for (GroupResult g : r.groups()) {
      // a trim that turns the type says it already
      if (g.zeroOrientation() != 0 && g.trim().turn() == 0) {
        list.add(
            g.named().words()
                + " is turned by "
                + g.zeroOrientation()
                + " degrees on every placement: its zero component orientation (IPC-7351) differs"
                + " between library and placement data.");
      }
    }
    return list;
  }

  /** Names of terms that the article cannot decide. */
  static List<String> undecided(FirstArticleResult r) {
    TreeSet<String> names = new TreeSet<>();
    for (GroupResult g : r.groups()) {
      if (g.trim().decision() == Decision.CANNOT_TELL) {
        names.add(g.named().words());
      }
    }
    add(names, "panel offset", r.batchTrim().shift().decision());
    add(names, "panel rotation", r.batchTrim().rotation().decision());
    add(names, "axis scale and squareness", r.batchTrim().scale().decision());
    add(names, "board array", r.batchTrim().array().decision());
    add(names, "offset common to all parts", r.batchTrim().common().decision());
    add(names, "rotation zero of all parts", r.batchTrim().rotationZero().decision());
    return List.copyOf(names);
  }

  private static void add(TreeSet<String> names, String name, Decision d) {
    if (d == Decision.CANNOT_TELL) {
      names.add(name);
    }
  }
}
