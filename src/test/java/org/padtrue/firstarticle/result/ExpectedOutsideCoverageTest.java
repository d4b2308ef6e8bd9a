package org.padtrue.firstarticle.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.Independent;
import org.padtrue.land.LandFit;
import org.padtrue.land.risk.Risk;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * The interval of the expected number outside, trims entered and not, holds the expectation under
 * the truth that was drawn: 20 placements of 8 types, 22 of 6, 67 of 8.
 *
 * <p>In full only, 300 articles a cell.
 */
@EnabledIfSystemProperty(named = "padtrue.full", matches = "true")
class ExpectedOutsideCoverageTest {
  private static final int ARTICLES = Study.runs("outside", 12, 300);

  private static double[] simulate(long seed, int placements, int types, double scatter) {
    double[] n = new double[4];
    Risk risk = new Risk();
    for (int i = 0; i < ARTICLES; i++) {
      SyntheticPanel s = new SyntheticPanel(seed + i);
      s.perBoard = placements;
      s.types = types;
      s.scatter = scatter;
      s.repeatability = 0.012;
      s.shiftX = 0.03 * s.random.nextGaussian();
      s.shiftY = 0.03 * s.random.nextGaussian();
      s.draw();
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(), List.of(s.article("a")), AnalysisOptions.withDefaults());
      for (int k = 0; k < 2; k++) {
        double truth = 0;
        Board b = s.job().array().boards().get(0);
        for (PlacementResult p : r.placements()) {
          Placement q = place(s, p);
          Pose nominal = p.nominal();
          double[] t = s.truth(b, q, nominal);
          double fx = k * (p.afterTrim().x() - p.deviation().x());
          double fy = k * (p.afterTrim().y() - p.deviation().y());
          double fr = k * (p.afterTrim().rotation() - p.deviation().rotation());
          double sd = Math.hypot(s.scatterOf(q.part()), s.repeatability);
          LandFit fit = LandFit.of(s.job().partType(q.part()), AcceptanceLimits.published(), 2);
          truth +=
              risk.outside(
                      fit,
                      Independent.part(
                              t[0] + fx,
                              t[1] + fy,
                              t[2] + fr,
                              sd,
                              sd,
                              s.rotationScatterOf(q.part()))
                          .inPartFrame(nominal.rotationDeg()))
                  .value();
        }
        Expected e =
            k == 0 ? r.acceptance().expectedOutside() : r.acceptance().expectedOutsideAfterTrim();
        n[0]++;
        n[1] += truth >= e.low() - 1e-9 && truth <= e.high() + 1e-9 ? 1 : 0;
        n[2] += truth;
        n[3] += e.value();
      }
    }
    return n;
  }

  private static Placement place(SyntheticPanel s, PlacementResult p) {
    return s.job().placements().stream()
        .filter(q -> q.ref().equals(p.ref()) && p.board().equals(new BoardIndex(1, 1)))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void theIntervalHoldsTheTruth() {
    for (int[] c : new int[][] {{20, 8}, {22, 6}, {67, 8}}) {
      // Tolerance 0.2 mm: parts a thousand to a tenth outside.
      for (double scatter : new double[] {0.05, 0.08}) {
        double[] n = simulate(840_000, c[0], c[1], scatter);
        String line =
            String.format(
                "%d placements, %d types, scatter %.0f um: holds %.3f of %.0f; expected %.3f,"
                    + " said %.3f",
                c[0], c[1], 1e3 * scatter, n[1] / n[0], n[0], n[2] / n[0], n[3] / n[0]);
        System.out.println(line);
        // two standard errors; both values of an article go together
        double slack = 2 * Math.sqrt(0.93 * 0.07 / (0.5 * n[0]));
        assertThat(n[1] / n[0]).as(line).isGreaterThan(0.93 - slack);
      }
    }
  }
}
