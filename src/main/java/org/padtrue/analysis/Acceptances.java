package org.padtrue.analysis;

import java.util.List;
import java.util.TreeSet;
import org.padtrue.panel.Job;

/** Counts and indices against the limits. */
final class Acceptances {
  private Acceptances() {}

  static Acceptance of(Job job, PlacementTable table) {
    int judged = 0;
    int outside = 0;
    int after = 0;
    TreeSet<String> notJudged = new TreeSet<>();
    for (PlacementResult r : table.results()) {
      if (!table.judge(r.part()).judged()) {
        notJudged.add(r.part());
      }
      if (r.verdict().equals("within") || r.verdict().equals("outside")) {
        judged++;
        outside += r.margin() < 0 ? 1 : 0;
        after += r.marginAfterTrim() < 0 ? 1 : 0;
      }
    }
    double[] expected = table.expectedOutside();
    return new Acceptance(
        job.acceptanceClass(),
        judged,
        outside,
        after,
        expected[0],
        expected[1],
        Xy.UNKNOWN,
        Xy.UNKNOWN,
        Xy.UNKNOWN,
        List.copyOf(notJudged));
  }
}
