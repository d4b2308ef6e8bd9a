package org.padtrue.firstarticle.decide;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Factor;

/**
 * What is listed is there: 67 placements, three types off among eight, four nozzles that are right.
 *
 * <p>200 articles a cell in full, 20 otherwise; the least offsets, which are not told from noise
 * that well, in full only.
 */
class FoldingTest {
  private static final int ARTICLES = Study.runs("folding", 20, 200);

  /** Listed terms, those truly nought, terms truly off, those found. */
  private static int[] simulate(long seed, double sd, boolean all) {
    int[] n = new int[4];
    for (int i = 0; i < ARTICLES; i++) {
      SyntheticPanel s = new SyntheticPanel(seed + i);
      s.perBoard = 67;
      s.types = 8;
      s.nozzles = 4;
      s.typeSd = sd;
      s.typeRotationSd = 0;
      s.tolerances = false;
      s.draw();
      for (int k = 3; k < 8; k++) {
        s.offset.put("part T" + k, new double[] {0, 0});
      }
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(), List.of(s.article("a")), AnalysisOptions.withDefaults().withAll(all));
      for (GroupResult g : r.groups()) {
        boolean off = g.factor() == Factor.PART && Integer.parseInt(g.level().substring(1)) < 3;
        boolean listed = g.trim().decision() == Decision.TRIM;
        n[0] += listed ? 1 : 0;
        n[1] += listed && !off ? 1 : 0;
        n[2] += off ? 1 : 0;
        n[3] += listed && off ? 1 : 0;
      }
    }
    return n;
  }

  @Test
  void whatIsListedIsThere() {
    for (double sd : Study.FULL ? new double[] {0.03, 0.05, 0.08} : new double[] {0.05, 0.08}) {
      int[] every = simulate(740_000, sd, true);
      int[] folded = simulate(740_000, sd, false);
      System.out.printf(
          "types off by SD %2.0f um: listed %d, of them nought %d, off found %d of %d; with --all"
              + " %d, %d, %d of %d%n",
          1e3 * sd, folded[0], folded[1], folded[3], folded[2], every[0], every[1], every[3],
          every[2]);
      if (sd > 0.04) {
        // One in twenty, and three binomial standard errors of it for the small run.
        double bound = 0.05 * folded[0] + (ARTICLES < 200 ? 3 * Math.sqrt(0.05 * folded[0]) : 0);
        assertThat((double) folded[1]).as("nought among %d listed", folded[0]).isLessThan(bound);
      }
      // Offsets of 1.5 times the scatter are not told from noise that well: see the handbook.
      assertThat(every[1]).isGreaterThan(5 * folded[1]);
    }
  }
}
