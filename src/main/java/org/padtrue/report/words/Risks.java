package org.padtrue.report.words;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;

/** Placements that a person should look at: outside or not safe with the trims entered. */
public final class Risks {
  /** Probability of being outside on the next panel from which a placement is named. */
  static final double WORTH_NAMING = 0.001;

  private Risks() {}

  /** The worst of those at risk with the trims entered. */
  public static List<PlacementResult> worst(FirstArticleResult r, int most) {
    return r.placements().stream()
        .filter(Risks::atRisk)
        .sorted(
            Comparator.comparingDouble(Risks::least)
                .thenComparing(Comparator.comparingDouble(Risks::probabilityAfter).reversed()))
        .limit(most)
        .toList();
  }

  /** How many are at risk with the trims entered. */
  public static long count(FirstArticleResult r) {
    return r.placements().stream().filter(Risks::atRisk).count();
  }

  /** Part types with placements that are outside now and that the trims put right, with counts. */
  public static List<String> cured(FirstArticleResult r) {
    Map<String, Integer> counts = new TreeMap<>();
    for (PlacementResult p : r.placements()) {
      if (p.verdict().equals("outside") && !atRisk(p)) {
        counts.merge(p.part(), 1, Integer::sum);
      }
    }
    return counts.entrySet().stream().map(e -> e.getKey() + " (" + e.getValue() + ")").toList();
  }

  /** Panel (when there are several), board (when there are several) and ref. */
  public static String name(FirstArticleResult r, PlacementResult p) {
    String board = r.job().array().boards().size() > 1 ? p.board() + "/" : "";
    return (r.panels().size() > 1 ? p.panel() + " " : "") + board + p.ref();
  }

  /** Why a placement was left out of the fit, in a few words; empty when it was not. */
  public static String note(FirstArticleResult r, PlacementResult p) {
    for (Excluded e : r.excluded()) {
      if (e.panel().equals(p.panel()) && e.board().equals(p.board()) && e.ref().equals(p.ref())) {
        return "left out: " + KeyWords.kind(e.kind());
      }
    }
    return "";
  }

  /** Outside with the trims, or likely to be; a slip of the record is not judged. */
  private static boolean atRisk(PlacementResult p) {
    boolean outside = p.verdict().equals("outside");
    if (!outside && !p.verdict().equals("within")) {
      return false;
    }
    return p.marginAfterTrim() < 0
        || p.probabilityOutsideAfterTrim() >= WORTH_NAMING
        || outside && !p.used();
  }

  private static double probabilityAfter(PlacementResult p) {
    return Double.isNaN(p.probabilityOutsideAfterTrim()) ? 0 : p.probabilityOutsideAfterTrim();
  }

  private static double least(PlacementResult p) {
    return Double.isNaN(p.marginAfterTrim()) ? 0 : p.marginAfterTrim();
  }
}
