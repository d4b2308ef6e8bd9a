package org.padtrue.report.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Tolerance;
import org.padtrue.problem.InputException;
import org.padtrue.report.SampleResults;
import org.padtrue.report.json.StoredAnalysis;

/** Requirements, uncertainty and decisions of single characteristics. */
class FirstArticleRecordsTest {
  private static final double MM_TOL = 1e-12;
  private static final PartType WITH_TOLERANCE = type(List.of(), new Tolerance(0.2, 0.1, 5));
  private static final PartType WITH_LANDS = type(List.of(new Rect(3, 0, 2, 6)), null);

  private static PartType type(List<Rect> ends, Tolerance t) {
    return new PartType("P", JointKind.OTHER, 1, false, null, Double.NaN, ends, ends, null, t);
  }

  private static Job job(PartType part, double u, double uRotation, double bias) {
    Job j = SampleResults.of(10).job();
    return new Job(
        "job",
        j.side(),
        j.stage(),
        List.of(),
        List.of(),
        Map.of("P", part),
        j.array(),
        List.of(),
        2,
        j.machine(),
        new Measurement(Reference.FIDUCIALS, u, uRotation, bias),
        List.of());
  }

  private static StoredAnalysis analysis(double rotation, Xyr deviation, double margin) {
    PlacementResult p =
        new PlacementResult(
            "P1",
            new BoardIndex(1, 1),
            "U1",
            "P",
            new Pose(10, 20, rotation),
            deviation,
            Xyr.ZERO,
            Xyr.ZERO,
            margin,
            margin,
            0,
            0,
            "within",
            true);
    return new StoredAnalysis(
        "analysis.json",
        "0".repeat(64),
        "job",
        List.of("a.csv"),
        "paste",
        "fiducials",
        List.of(),
        null,
        null,
        List.of(),
        null,
        List.of(),
        List.of(),
        new Scatter(0, 0, 0, 0, 0, 0, 0),
        List.of(p),
        List.of(),
        List.of());
  }

  private static List<Characteristic> of(
      PartType part, double rotation, Xyr deviation, double margin, DecisionRule rule) {
    return FirstArticleRecords.of(
            job(part, 0.006, 0.1, 0),
            analysis(rotation, deviation, margin),
            RecordOptions.withDefaults().with(rule))
        .characteristics();
  }

  private static Conformity x(double deviation, DecisionRule rule) {
    return of(WITH_TOLERANCE, 0, new Xyr(deviation, 0, 0), 0, rule).get(0).conformity();
  }

  /**
   * ILAC-G8:09/2019, 4.2.1 and 4.2.3 (figures 3 and 5): tolerance limit 0.2, guard band w = U = 2 x
   * 0.006.
   */
  @Test
  void rulesDecideAsPublished() {
    assertThat(x(0.187, DecisionRule.SIMPLE)).isEqualTo(Conformity.WITHIN);
    assertThat(x(-0.199, DecisionRule.SIMPLE)).isEqualTo(Conformity.WITHIN);
    assertThat(x(0.201, DecisionRule.SIMPLE)).isEqualTo(Conformity.OUTSIDE);
    assertThat(x(0.187, DecisionRule.GUARDED)).isEqualTo(Conformity.WITHIN);
    assertThat(x(-0.199, DecisionRule.GUARDED)).isEqualTo(Conformity.CONDITIONALLY_WITHIN);
    assertThat(x(0.201, DecisionRule.GUARDED)).isEqualTo(Conformity.CONDITIONALLY_OUTSIDE);
    assertThat(x(-0.213, DecisionRule.GUARDED)).isEqualTo(Conformity.OUTSIDE);
  }

  /** A tolerance stands in the part frame: at 90 degrees the part's y is the panel's x. */
  @Test
  void toleranceTurnsWithThePart() {
    for (double theta : new double[] {90, -90, 270}) {
      List<Characteristic> c =
          of(WITH_TOLERANCE, theta, new Xyr(0.15, 0.15, 0), 0, DecisionRule.SIMPLE);
      assertThat(c).hasSize(3);
      assertThat(c.get(0).upper()).isCloseTo(10.1, within(MM_TOL));
      assertThat(c.get(1).upper()).isCloseTo(20.2, within(MM_TOL));
      assertThat(c.get(0).conformity()).isEqualTo(Conformity.OUTSIDE);
      assertThat(c.get(1).conformity()).isEqualTo(Conformity.WITHIN);
    }
  }

  /**
   * At 30 degrees the limits are along the part; 0.15 along panel x is 0.15 cos 30, -0.15 sin 30.
   */
  @Test
  void oddAnglesAreJudgedAlongThePart() {
    List<Characteristic> c = of(WITH_TOLERANCE, 30, new Xyr(0.15, 0, 1), 0, DecisionRule.SIMPLE);
    assertThat(c)
        .extracting(Characteristic::kind)
        .containsExactly(
            CharacteristicKind.X,
            CharacteristicKind.Y,
            CharacteristicKind.ROTATION,
            CharacteristicKind.PART_X,
            CharacteristicKind.PART_Y);
    assertThat(c.get(0).conformity()).isEqualTo(Conformity.NO_LIMIT);
    assertThat(c.get(2).conformity()).isEqualTo(Conformity.WITHIN);
    assertThat(c.get(3).result()).isCloseTo(0.15 * Math.sqrt(3) / 2, within(MM_TOL));
    assertThat(c.get(4).result()).isCloseTo(-0.075, within(MM_TOL));
    assertThat(c.get(4).upper()).isEqualTo(0.1);
  }

  /** GUM, F.2.4.5: a bias that is not corrected adds to k u. */
  @Test
  void expandedUncertainty() {
    Measuring m = new Measuring(0.006, 0.1, 0.01, 3, DecisionRule.SIMPLE);
    assertThat(m.expandedMm()).isCloseTo(0.028, within(MM_TOL));
    assertThat(m.expandedDeg()).isCloseTo(0.3, within(MM_TOL));
    // farthest edge of the end at x 2..4, y -3..3: 5 mm
    List<Characteristic> c = of(WITH_LANDS, 0, Xyr.ZERO, 0.05, DecisionRule.GUARDED);
    double u = 2 * Math.hypot(0.006, 5 * Math.toRadians(0.1));
    assertThat(c.get(3).kind()).isEqualTo(CharacteristicKind.LAND_FIT);
    assertThat(c.get(3).expandedUncertainty()).isCloseTo(u, within(MM_TOL));
    assertThat(c.get(3).conformity()).isEqualTo(Conformity.WITHIN);
    assertThat(c.get(0).conformity()).isEqualTo(Conformity.BY_LAND_FIT);
  }

  @Test
  void notMeasuredIsNotWithin() {
    List<Characteristic> c =
        of(WITH_TOLERANCE, 0, new Xyr(0.01, 0.01, Double.NaN), 0, DecisionRule.SIMPLE);
    assertThat(c.get(0).conformity()).isEqualTo(Conformity.WITHIN);
    assertThat(c.get(2).conformity()).isEqualTo(Conformity.NOT_MEASURED);
    assertThat(c.get(2).expandedUncertainty()).isNaN();
  }

  @Test
  void guardedRuleNeedsAnUncertainty() {
    assertThatThrownBy(
            () ->
                FirstArticleRecords.of(
                    job(WITH_TOLERANCE, Double.NaN, 0.1, 0),
                    analysis(0, Xyr.ZERO, 0),
                    RecordOptions.withDefaults().with(DecisionRule.GUARDED)))
        .isInstanceOfSatisfying(
            InputException.class,
            e ->
                assertThat(e.problems().get(0).sentence())
                    .isEqualTo(
                        "the guarded decision rule needs measurement.uncertainty, which the job"
                            + " does not state; add it to the job ('gauge' gives it), or take the"
                            + " simple rule"));
  }
}
