package org.padtrue.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.Scatter;

/** The tightest tolerance of the sample is 0.12 mm (R0402, C0402). */
class MeasuringVerdictTest {
  @Test
  void sharpMeasuringIsGood() {
    MeasuringVerdict v = verdict(0.004, 0.018);
    assertThat(v.grade()).isEqualTo(MeasuringVerdict.Grade.GOOD);
    assertThat(v.sentence())
        .isEqualTo(
            "good enough; 4.0 um is 4.9 % of the variance of 18 um left by the fit, twice it is"
                + " 6.7 % of the tightest tolerance");
  }

  @Test
  void theWorseOfTheTwoReadingsCounts() {
    // 12 um of 30 um: 16 % of the variance, but 20 % of the tolerance
    assertThat(verdict(0.012, 0.030).grade()).isEqualTo(MeasuringVerdict.Grade.FAIR);
    // 5 um of 5.5 um: 83 % of the variance, 8 % of the tolerance
    assertThat(verdict(0.005, 0.0055).grade()).isEqualTo(MeasuringVerdict.Grade.POOR);
    assertThat(verdict(0.020, 0.1).grade()).isEqualTo(MeasuringVerdict.Grade.POOR);
  }

  @Test
  void unknownIsSaid() {
    assertThat(verdict(Double.NaN, 0.018).sentence()).startsWith("not known: the job states no");
    assertThat(verdict(0.030, 0.018).sentence())
        .startsWith("the stated uncertainty of 30 um is more than all the scatter seen (18 um)");
  }

  private static MeasuringVerdict verdict(double measuring, double residual) {
    FirstArticleResult r = SampleResults.of(1000);
    Scatter s = new Scatter(residual, residual, 0.2, residual, 0.2, measuring, 1900);
    return MeasuringVerdict.of(
        new FirstArticleResult(
            r.job(),
            r.articles(),
            r.options(),
            r.counts(),
            r.panels(),
            r.common(),
            r.rotationZero(),
            r.groups(),
            r.batchTrim(),
            r.trims(),
            r.tests(),
            r.variances(),
            r.budget(),
            s,
            r.prediction(),
            r.quadrants(),
            r.aliases(),
            r.excluded(),
            r.placements(),
            r.missing(),
            r.acceptance(),
            r.clearances(),
            r.notes()));
  }
}
