package org.padtrue.report.words;

import java.util.List;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.RoundingCost;

/** What the machine's resolution leaves, with its cost. */
final class RoundingWords {
  /** Less is not said, mm. */
  private static final double LEAST_MM = 0.00005;

  private RoundingWords() {}

  /** One sentence for the console; empty where rounding leaves nothing worth a digit. */
  static String of(Prediction p) {
    List<RoundingCost> costs = p.rounding().stream().filter(c -> c.rmsMm() >= LEAST_MM).toList();
    if (costs.isEmpty()) {
      return "";
    }
    StringBuilder b = new StringBuilder("rounding to the machine's steps leaves ");
    for (int i = 0; i < costs.size(); i++) {
      RoundingCost c = costs.get(i);
      b.append(i == 0 ? "" : ", ").append(Show.um(c.rmsMm())).append(" um RMS of ");
      b.append(c.what()).append(" (steps of ").append(step(c)).append(")");
    }
    return b.append(" on the next panel.").toString();
  }

  private static String step(RoundingCost c) {
    return c.unit().equals("mm")
        ? Show.short0(1000 * c.step(), 3) + " um"
        : Show.short0(c.step(), 6) + " " + c.unit();
  }
}
