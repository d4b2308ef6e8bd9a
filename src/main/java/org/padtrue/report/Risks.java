package org.padtrue.report;

import java.util.Comparator;
import java.util.List;
import org.padtrue.analysis.Excluded;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.PlacementResult;

/** Placements that a person should look at: outside now, or not safe with the trims entered. */
final class Risks {
  /** Probability of being outside on the next panel from which a placement is named. */
  static final double WORTH_NAMING = 0.001;

  private Risks() {}

  /** The worst, those that stay at risk after the trims first. */
  static List<PlacementResult> worst(FirstArticleResult r, int most) {
    return r.placements().stream()
        .filter(Risks::atRisk)
        .sorted(
            Comparator.comparingDouble(Risks::probabilityAfter)
                .reversed()
                .thenComparingDouble(Risks::least))
        .limit(most)
        .toList();
  }

  /** How many there are. */
  static long count(FirstArticleResult r) {
    return r.placements().stream().filter(Risks::atRisk).count();
  }

  /** Panel (when there are several), board (when there are several) and ref. */
  static String name(FirstArticleResult r, PlacementResult p) {
    String board = r.job().array().boards().size() > 1 ? p.board() + "/" : "";
    return (r.panels().size() > 1 ? p.panel() + " " : "") + board + p.ref();
  }

  /** Why a placement was left out of the fit, in a few words; empty when it was not. */
  static String note(FirstArticleResult r, PlacementResult p) {
    for (Excluded e : r.excluded()) {
      if (e.panel().equals(p.panel()) && e.board().equals(p.board()) && e.ref().equals(p.ref())) {
        return "left out: " + Words.kind(e.kind());
      }
    }
    return "";
  }

  private static boolean atRisk(PlacementResult p) {
    if (p.verdict().equals("outside")) {
      return true;
    }
    // a slip of the record is not judged, whatever its numbers say
    return p.verdict().equals("within")
        && (p.marginAfterTrim() < 0 || p.probabilityOutsideAfterTrim() >= WORTH_NAMING);
  }

  private static double probabilityAfter(PlacementResult p) {
    return Double.isNaN(p.probabilityOutsideAfterTrim()) ? 0 : p.probabilityOutsideAfterTrim();
  }

  private static double least(PlacementResult p) {
    return Double.isNaN(p.marginAfterTrim()) ? 0 : p.marginAfterTrim();
  }
}
