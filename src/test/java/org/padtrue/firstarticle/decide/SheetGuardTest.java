package org.padtrue.firstarticle.decide;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.land.risk.ExpectedOutside;
import org.padtrue.report.words.ConsoleSummary;
import org.padtrue.report.words.ResultWords;

/** No sheet is written whose own forecast is worse than that of leaving everything alone. */
class SheetGuardTest {
  private static final Prediction WORSE = new Prediction(0.1, 0.040, 0.061, 0.02);

  private static ExpectedOutside outside(double n) {
    return new ExpectedOutside(n, 0, 2 * n, 0.001, 90);
  }

  @Test
  void worseInBothIsLeft() {
    assertThat(SheetGuard.reason(WORSE, outside(1.1), outside(3.2)))
        .isEqualTo(
            "nothing is trimmed: with all trims entered the next panel is expected 61.0 um off"
                + " (RMS) instead of 40.0 um, and 3.2 placements outside instead of 1.1");
    assertThat(SheetGuard.reason(WORSE, outside(3.2), outside(1.1))).isNull();
    assertThat(SheetGuard.reason(new Prediction(0.1, 0.061, 0.04, 0.02), outside(1), outside(2)))
        .isNull();
  }

  /** Where nothing is judged the mean square alone decides, beyond the finest digit shown. */
  @Test
  void withoutLandsTheMeanSquareDecides() {
    assertThat(SheetGuard.reason(WORSE, null, null))
        .isEqualTo(
            "nothing is trimmed: with all trims entered the next panel is expected 61.0 um off"
                + " (RMS) instead of 40.0 um");
    assertThat(SheetGuard.reason(new Prediction(0.1, 0.04, 0.04005, 0.02), null, null)).isNull();
  }

  /**
   * A machine that turns a panel finely but shifts it by half millimetres only: the turn about the
   * panel origin moves the middle by what no shift can take back.
   */
  private static SyntheticPanel coarse(boolean tolerances) {
    SyntheticPanel s = new SyntheticPanel(7);
    s.perBoard = 90;
    s.typeSd = 0.01;
    s.resolution = 0.5;
    s.rotationDeg = 0.5;
    s.shiftX = 0.174;
    s.shiftY = -0.262;
    s.tolerances = tolerances;
    return s.draw();
  }

  private static FirstArticleResult run(SyntheticPanel s, AnalysisOptions o) {
    return FirstArticleAnalysis.run(s.job(), List.of(s.article("a")), o);
  }

  @Test
  void aSheetThatWouldHarmIsNotWritten() {
    for (boolean tolerances : new boolean[] {true, false}) {
      FirstArticleResult r = run(coarse(tolerances), AnalysisOptions.withDefaults());
      // Some trim turned off, the guard is: the sheet as it would have been.
      FirstArticleResult would =
          run(coarse(tolerances), AnalysisOptions.withDefaults().withTurnedOff(Set.of("array")));
      assertThat(would.trims()).isNotEmpty();
      assertThat(would.prediction().nextTrimmed())
          .isGreaterThan(would.prediction().nextUntrimmed() + 0.01);
      assertThat(r.trims()).isEmpty();
      assertThat(r.batchTrim().rotation().decision()).isEqualTo(Decision.LEAVE);
      assertThat(r.batchTrim().shift().decision()).isEqualTo(Decision.LEAVE);
      assertThat(r.groups()).noneMatch(g -> g.trim().decision() == Decision.TRIM);
      assertThat(r.prediction().nextTrimmed()).isEqualTo(r.prediction().nextUntrimmed());
      assertThat(r.placements())
          .filteredOn(p -> Double.isFinite(p.deviation().x()))
          .allMatch(p -> p.afterTrim().equals(p.deviation()));
      String why = r.whyLeft().orElseThrow();
      assertThat(r.batchTrim().rotation().reason()).isEqualTo(why);
      assertThat(why).contains("off (RMS) instead of");
      assertThat(why.contains("outside instead of")).isEqualTo(tolerances);
      String said = "Nothing is trimmed: with all trims entered the next panel is expected";
      assertThat(ResultWords.headline(r)).startsWith("Leave everything alone. " + said);
      assertThat(String.join(" ", ConsoleSummary.of(r, Path.of("out"))).replaceAll(" +", " "))
          .contains("nothing: leave everything alone. " + said);
    }
  }

  @Test
  void fineStepsOnTheSamePanelAreEntered() {
    SyntheticPanel s = coarse(true);
    SyntheticPanel fine = new SyntheticPanel(7);
    fine.perBoard = s.perBoard;
    fine.typeSd = s.typeSd;
    fine.rotationDeg = s.rotationDeg;
    fine.shiftX = s.shiftX;
    fine.shiftY = s.shiftY;
    FirstArticleResult r = run(fine.draw(), AnalysisOptions.withDefaults());
    assertThat(r.whyLeft()).isEmpty();
    assertThat(r.batchTrim().rotation().decision()).isEqualTo(Decision.TRIM);
  }
}
