package org.padtrue.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.gauge.GaugeVerdict;
import org.padtrue.report.SampleResults;

/** The tightest tolerance of the sample is 0.12 mm (R0402, C0402). */
class MeasuringVerdictTest {
  @Test
  void sharpMeasuringIsAcceptable() {
    // 6 x 3 um of 240 um
    MeasuringVerdict v = verdict(0.003, 0.018);
    assertThat(v.verdict()).isEqualTo(GaugeVerdict.FIT);
    assertThat(v.sentence())
        .matches(
            "measurement system acceptable: six of its standard deviations of 3\\.0 um take 7\\.5 %"
                + " of the tightest tolerance, 120 um to either side \\(part type [RC]0402\\);"
                + " below 10 % acceptable, above 30 % not \\(AIAG MSA\\); it makes 2\\.8 % of the"
                + " variance left by the fit");
  }

  /** AIAG, Measurement Systems Analysis: below 10 %, to 30 %, above. */
  @Test
  void theShareOfTheToleranceDecides() {
    assertThat(verdict(0.005, 0.030).verdict()).isEqualTo(GaugeVerdict.CONDITIONAL);
    assertThat(verdict(0.013, 0.030).verdict()).isEqualTo(GaugeVerdict.UNFIT);
  }

  @Test
  void unknownIsSaid() {
    assertThat(verdict(Double.NaN, 0.018).sentence())
        .startsWith("measurement system not judged: the job states no");
    assertThat(verdict(0.030, 0.018).sentence())
        .startsWith(
            "measurement system not judged: the stated uncertainty of 30 um is more than all the"
                + " scatter seen (18 um)");
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
            r.next(),
            r.notes()));
  }
}
