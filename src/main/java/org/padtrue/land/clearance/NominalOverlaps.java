package org.padtrue.land.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;

/** Parts that overlap as drawn, to be said before anything is placed. */
public final class NominalOverlaps {
  private static final int MOST = 5;

  private NominalOverlaps() {}

  /** One line for each of the worst pairs; empty when nothing overlaps or no sizes are known. */
  public static List<String> of(Job job) {
    List<ClearanceItem> items = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        items.add(
            ClearanceItem.nominalOnly(
                b.index() + "/" + p.ref(), job.partType(p.part()), p.pose().seenFrom(b.origin())));
      }
    }
    List<PairClearance> pairs = new Clearance(items, 0).nominalOverlaps();
    List<String> lines = new ArrayList<>();
    for (PairClearance p : pairs.subList(0, Math.min(MOST, pairs.size()))) {
      lines.add(
          String.format(
              Locale.ROOT,
              "%s and %s overlap by %.3f mm as drawn, before anything is placed.",
              p.a().id(),
              p.b().id(),
              -p.gapNominal()));
    }
    if (pairs.size() > MOST) {
      lines.add("and " + (pairs.size() - MOST) + " more pairs overlap as drawn.");
    }
    return lines;
  }
}
