package org.padtrue.gauge;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The verdict's sentence, whole. */
class GaugeNotesTest {
  private static final String RULE =
      " Below 10 % acceptable, above 30 % not acceptable (AIAG, Measurement Systems Analysis).";

  @Test
  void verdictOfATolerance() {
    assertThat(GaugeNotes.verdict("x", "mm", GaugeVerdict.FIT, 0.084, 0.1, "R0603", 0.0028))
        .isEqualTo(
            "x: measurement system acceptable; six of its standard deviations of 0.0028 mm take 8 %"
                + " of the tightest tolerance, 0.100 mm to either side (part type R0603)."
                + RULE);
    assertThat(GaugeNotes.verdict("y", "mm", GaugeVerdict.CONDITIONAL, 0.25, 0.12, "", 0.01))
        .isEqualTo(
            "y: measurement system conditionally acceptable (decide only on what is clearly larger"
                + " than its spread); six of its standard deviations of 0.0100 mm take 25 % of the"
                + " tightest tolerance, 0.120 mm to either side."
                + RULE);
  }

  @Test
  void verdictOfTheStudyVariation() {
    assertThat(
            GaugeNotes.verdict(
                "rotation", "deg", GaugeVerdict.UNFIT, 0.31, Double.NaN, "", Double.NaN))
        .isEqualTo(
            "rotation: measurement system not acceptable (do not decide by it); six of its standard"
                + " deviations of unknown deg take 31 % of the study variation."
                + RULE);
  }

  @Test
  void noVerdictWithoutAnythingToCompareWith() {
    assertThat(
            GaugeNotes.verdict(
                "x", "mm", GaugeVerdict.NOT_JUDGED, Double.NaN, Double.NaN, "", 0.01))
        .isEqualTo(
            "x: not judged, there is neither a tolerance nor variation between placements to"
                + " compare with.");
  }
}
