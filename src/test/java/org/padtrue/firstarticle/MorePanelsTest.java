package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;

/**
 * More panels never hurt: what the sheet of two, three and five panels leaves of the batch's own
 * systematic deviations, minus what that of one leaves, paired. Registration of the next panel and
 * scatter are left out on all sides.
 *
 * <p>In full only, 200 runs a cell.
 */
@EnabledIfSystemProperty(named = "padtrue.full", matches = "true")
class MorePanelsTest {
  private static final int RUNS = Study.runs("panels", 6, 200);
  private static final int[] PANELS = {1, 2, 3, 5};

  /** RMS over the placements of what the trims leave of the truth, um, by number of panels. */
  private static double[] left(long seed, double repeatability, double shiftSd) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.tolerances = false;
    s.perBoard = 60;
    s.repeatability = repeatability;
    s.shiftX = shiftSd * s.random.nextGaussian();
    s.shiftY = shiftSd * s.random.nextGaussian();
    s.rotationDeg = 0.03 * s.random.nextGaussian();
    s.draw();
    List<Article> all = new ArrayList<>();
    for (int k = 0; k < 5; k++) {
      all.add(s.article("a" + k));
    }
    double[] out = new double[PANELS.length];
    for (int k = 0; k < PANELS.length; k++) {
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(), all.subList(0, PANELS[k]), AnalysisOptions.withDefaults());
      double sum = 0;
      List<Measured> rows = all.get(0).measured();
      java.util.Map<String, double[]> trim = new java.util.HashMap<>();
      for (PlacementResult p : r.placements()) {
        trim.putIfAbsent(
            p.id(),
            new double[] {
              p.afterTrim().x() - p.deviation().x(), p.afterTrim().y() - p.deviation().y()
            });
      }
      for (Measured m : rows) {
        double[] t = s.truth(s.job().array().boards().get(0), m.placement(), m.nominal());
        double[] own = trim.get(m.id());
        sum += (t[0] + own[0]) * (t[0] + own[0]) + (t[1] + own[1]) * (t[1] + own[1]);
      }
      out[k] = 1e3 * Math.sqrt(sum / rows.size());
    }
    return out;
  }

  @Test
  void moreDataNeverHurt() {
    System.out.println(
        "left by the sheet of 1 panel, um RMS; 2, 3, 5 panels minus 1, paired (SE), um");
    for (double repeatability : new double[] {0, 0.012, 0.025}) {
      for (double shift : new double[] {0, 0.03}) {
        List<double[]> runs = new ArrayList<>(Collections.emptyList());
        for (int i = 0; i < RUNS; i++) {
          runs.add(left(620_000 + i, repeatability, shift));
        }
        StringBuilder line = new StringBuilder();
        line.append(
            String.format(
                "repeats to %2.0f um, offset SD %2.0f um: %5.1f",
                1e3 * repeatability,
                1e3 * shift,
                runs.stream().mapToDouble(r -> r[0]).average().orElse(0)));
        for (int k = 1; k < PANELS.length; k++) {
          int kk = k;
          double mean = runs.stream().mapToDouble(r -> r[kk] - r[0]).average().orElse(0);
          double ss = runs.stream().mapToDouble(r -> Math.pow(r[kk] - r[0] - mean, 2)).sum();
          double se = Math.sqrt(ss / (RUNS - 1) / RUNS);
          line.append(String.format("; %+.2f (%.2f)", mean, se));
          assertThat(mean + (RUNS >= 200 ? 1.645 : -2.5) * se)
              .as(PANELS[k] + " panels, " + line)
              .isLessThan(0.5);
        }
        System.out.println(line);
      }
    }
  }
}
