package org.padtrue.land;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

/** Margins against hand-worked cases, published limits and a second route. */
class LandFitTest {
  private static final double EXACT_MM = 1e-12;
  private static final AcceptanceLimits LIMITS = AcceptanceLimits.published();

  /**
   * Side-overhang budget of chips on lands as wide as the part: IPC-A-610 50 % (classes 1, 2) and
   * 25 % (class 3) of the width of EIA chip sizes.
   */
  @ParameterizedTest
  @CsvSource({
    "0.60, 0.30, 0.15, 0.075",
    "1.00, 0.50, 0.25, 0.125",
    "1.60, 0.80, 0.40, 0.20",
    "2.00, 1.25, 0.625, 0.3125",
    "3.20, 1.60, 0.80, 0.40"
  })
  void sideBudgetOfChips(double length, double width, double classTwo, double classThree) {
    PartType p = Parts.chipOnEqualLands(length, width);
    double[] budget = {classTwo, classTwo, classThree};
    for (int cls = 1; cls <= 3; cls++) {
      LandFit fit = LandFit.of(p, LIMITS, cls);
      assertThat(fit.allowed().yMm()).isCloseTo(budget[cls - 1], within(EXACT_MM));
      assertThat(fit.margin(0, budget[cls - 1] + 0.001, 0)).isCloseTo(-0.001, within(EXACT_MM));
      assertThat(fit.margin(0, 0.001 - budget[cls - 1], 0)).isCloseTo(0.001, within(EXACT_MM));
    }
  }

  /** Lands wider than the part add (P - W)/2 of free travel: 0.4 + 0.05. End: 1.2 - 0.8. */
  @Test
  void chipOnWiderLands() {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    assertThat(fit.margin(0, 0, 0)).isCloseTo(0.40, within(EXACT_MM));
    assertThat(fit.margin(0, 0.30, 0)).isCloseTo(0.15, within(EXACT_MM));
    assertThat(fit.margin(0.45, 0, 0)).isCloseTo(-0.05, within(EXACT_MM));
    assertThat(fit.margin(-0.45, 0, 180)).isCloseTo(-0.05, within(EXACT_MM));
    assertThat(LandFit.of(Parts.chip(), LIMITS, 3).margin(0, 0.2, 0))
        .isCloseTo(0.05, within(EXACT_MM));
  }

  /** Lands that reach far out but not under: the other termination leaves its land first. */
  @Test
  void terminationMustOverlapItsLand() {
    PartType p =
        Parts.part(
            "R",
            JointKind.CHIP,
            2,
            List.of(new Rect(-0.65, 0, 0.3, 0.8), new Rect(0.65, 0, 0.3, 0.8)),
            List.of(new Rect(-1.0, 0, 1.0, 0.8), new Rect(1.0, 0, 1.0, 0.8)),
            null);
    // toe 0.7, but at 0.3 the trailing termination has no land under it
    assertThat(LandFit.of(p, LIMITS, 2).margin(0.25, 0, 0)).isCloseTo(0.05, within(EXACT_MM));
  }

  /** Lead 0.4 wide on land 0.6: 0.2 (class 1, 2) or 0.1 (class 3), plus (0.6 - 0.4)/2. */
  @Test
  void gullWing() {
    PartType p = Parts.soic(8);
    assertThat(LandFit.of(p, LIMITS, 2).margin(0, 0.25, 0)).isCloseTo(0.05, within(EXACT_MM));
    assertThat(LandFit.of(p, LIMITS, 3).margin(0, 0.25, 0)).isCloseTo(-0.05, within(EXACT_MM));
    // toe: land reaches 0.35 beyond the foot
    assertThat(LandFit.of(p, LIMITS, 2).margin(0.3, 0, 0)).isCloseTo(0.05, within(EXACT_MM));
    // class 1: toe overhang is permitted, but 0.4 sideways is not
    assertThat(LandFit.of(p, LIMITS, 1).margin(0.3, 0, 0)).isCloseTo(0.3, within(EXACT_MM));
    assertThat(LandFit.of(p, LIMITS, 1).margin(1.1, 0, 0)).isCloseTo(0.05, within(EXACT_MM));
  }

  /** A lead 3 mm wide: 50 % would be 1.5, the cap says 0.5. */
  @Test
  void gullWingCap() {
    List<Rect> wide = List.of(new Rect(-3, 0, 1, 3), new Rect(3, 0, 1, 3));
    PartType p = Parts.part("D", JointKind.GULL_WING, 1, wide, wide, null);
    // flush with the end of its land: no toe room, so nothing to scale x by
    assertThat(LandFit.of(p, LIMITS, 2).allowed().xMm()).isNaN();
    List<Rect> lands = List.of(new Rect(-3, 0, 2, 3), new Rect(3, 0, 2, 3));
    PartType q = Parts.part("D", JointKind.GULL_WING, 1, wide, lands, null);
    assertThat(LandFit.of(q, LIMITS, 2).allowed().yMm()).isCloseTo(0.5, within(EXACT_MM));
    assertThat(LandFit.of(q, LIMITS, 3).allowed().yMm()).isCloseTo(0.5, within(EXACT_MM));
  }

  @Test
  void melfQuarterOfDiameterInEveryClass() {
    List<Rect> t = List.of(new Rect(-1.5, 0, 0.5, 1.4), new Rect(1.5, 0, 0.5, 1.4));
    List<Rect> lands = List.of(new Rect(-1.6, 0, 1.1, 1.4), new Rect(1.6, 0, 1.1, 1.4));
    PartType p = Parts.part("M", JointKind.MELF, 2, t, lands, null);
    for (int cls = 1; cls <= 3; cls++) {
      assertThat(LandFit.of(p, LIMITS, cls).allowed().yMm()).isCloseTo(0.35, within(EXACT_MM));
    }
  }

  /** Ball centre may be off by half the land's diameter, 0.2, whichever way. */
  @Test
  void ballsAreJudgedRadially() {
    LandFit fit = LandFit.of(Parts.balls(4), LIMITS, 2);
    assertThat(fit.margin(0, 0, 0)).isCloseTo(0.2, within(EXACT_MM));
    assertThat(fit.margin(0.12, 0.16, 0)).isCloseTo(0, within(EXACT_MM));
    // corner ball at 1.2 sqrt 2 from the middle: chord 2 r sin(a/2)
    double chord = 2 * 1.2 * Math.sqrt(2) * Math.sin(Math.toRadians(2.5));
    assertThat(fit.margin(0, 0, 5)).isCloseTo(0.2 - chord, within(EXACT_MM));
  }

  @Test
  void toleranceOverridesGeometry() {
    PartType p =
        Parts.part(
            "R",
            JointKind.CHIP,
            1,
            Parts.chip().terminations(),
            Parts.chip().lands(),
            new Tolerance(0.1, 0.2, 5));
    LandFit fit = LandFit.of(p, LIMITS, 2);
    assertThat(fit.margin(0.03, -0.05, 4.9)).isCloseTo(0.07, within(EXACT_MM));
    assertThat(fit.margin(0, -0.25, 0)).isCloseTo(-0.05, within(EXACT_MM));
    // one degree too much on half the length over terminations, 0.8
    assertThat(fit.margin(0.03, 0, -6)).isCloseTo(-0.8 * Math.toRadians(1), within(EXACT_MM));
    assertThat(fit.allowed().xMm()).isEqualTo(0.1);
    assertThat(fit.allowed().yMm()).isEqualTo(0.2);
    assertThat(fit.allowed().rotationDeg()).isCloseTo(5, within(1e-9));
  }

  @Test
  void neitherGeometryNorToleranceIsNotJudged() {
    LandFit fit = LandFit.of(PartType.unknown("X"), LIMITS, 2);
    assertThat(fit.judged()).isFalse();
    assertThat(fit.margin(0, 0, 0)).isNaN();
    assertThat(fit.allowed().xMm()).isNaN();
    assertThat(fit.allowed().rotationDeg()).isNaN();
  }

  @Test
  void unmeasuredRotationLeavesPositionToDecide() {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    assertThat(fit.margin(0.1, 0.3, Double.NaN)).isEqualTo(fit.margin(0.1, 0.3, 0));
    assertThat(fit.margin(Double.NaN, 0.3, 0)).isNaN();
  }

  /** A part that looks the same after half a turn may lie either way; one that does not may not. */
  @Test
  void rotationIsTakenModuloSymmetry() {
    LandFit symmetric = LandFit.of(Parts.chip(), LIMITS, 2);
    assertThat(symmetric.margin(0.05, 0.1, 181))
        .isCloseTo(symmetric.margin(0.05, 0.1, 1), within(EXACT_MM));
    PartType polar =
        Parts.part("D", JointKind.CHIP, 1, Parts.chip().terminations(), Parts.chip().lands(), null);
    assertThat(LandFit.of(polar, LIMITS, 2).margin(0, 0, 180)).isLessThan(-0.5);
  }

  /** A 0201 across its lands passes side, end and overlap; it is outside all the same. */
  @Test
  void quarterTurnedChipIsOutside() {
    PartType p =
        Parts.part(
            "R0201",
            JointKind.CHIP,
            2,
            List.of(new Rect(-0.225, 0, 0.15, 0.3), new Rect(0.225, 0, 0.15, 0.3)),
            List.of(new Rect(-0.325, 0, 0.45, 0.4), new Rect(0.325, 0, 0.45, 0.4)),
            null);
    assertThat(Overhang.of(p, 0, 0, 90).get(1).sideMm()).isLessThan(0.15);
    assertThat(Overhang.of(p, 0, 0, 90).get(1).overlapMm()).isPositive();
    LandFit fit = LandFit.of(p, LIMITS, 2);
    assertThat(fit.margin(0, 0, 90)).isLessThan(-0.2);
    assertThat(fit.margin(0, 0, 46)).isNegative();
    assertThat(fit.margin(0, 0, 180)).isCloseTo(fit.margin(0, 0, 0), within(EXACT_MM));
    assertThat(fit.allowed().rotationDeg()).isLessThanOrEqualTo(45 + 1e-6);
  }

  /** Second route: the least of what the overhangs leave of their limits. */
  @Test
  void marginIsWhatTheOverhangsLeave() {
    Random random = new Random(5);
    for (PartType p : List.of(Parts.chip(), Parts.soic(14))) {
      LandFit fit = LandFit.of(p, LIMITS, 2);
      LimitRule rule = LIMITS.rule(p.kind(), 2);
      double width = p.terminations().get(0).widthMm();
      double side = rule.sideLimitMm(width, p.lands().get(0).widthMm());
      for (int k = 0; k < 500; k++) {
        double dx = random.nextGaussian() * 0.3;
        double dy = random.nextGaussian() * 0.3;
        double deg = random.nextGaussian() * 8;
        double least = Double.POSITIVE_INFINITY;
        for (Overhang o : Overhang.of(p, dx, dy, deg)) {
          least = Math.min(least, Math.min(side - o.sideMm(), -o.endMm()));
        }
        double margin = fit.margin(dx, dy, deg);
        // overlap can only take away from it, and only once a termination nears the end of its land
        assertThat(margin).isLessThanOrEqualTo(least + 1e-12);
        double noOverlapSooner = least;
        if (Overhang.of(p, dx, dy, deg).stream().allMatch(o -> o.overlapMm() > noOverlapSooner)) {
          assertThat(margin).isCloseTo(least, within(1e-12));
        }
      }
    }
  }

  /** Of leads in rows and balls in a grid only the outermost can decide; the margin stays exact. */
  @Test
  void onlyTheOutermostTerminationsAreLookedAt() {
    BallFit balls = (BallFit) LandFit.of(Parts.balls(10), LIMITS, 2);
    assertThat(balls.balls()).isEqualTo(4);
    EdgeFit leads = (EdgeFit) LandFit.of(Parts.soic(14), LIMITS, 2);
    assertThat(leads.bounds()).isLessThanOrEqualTo(16);
    Random random = new Random(8);
    for (int k = 0; k < 300; k++) {
      double dx = random.nextGaussian() * 0.1;
      double dy = random.nextGaussian() * 0.1;
      double deg = random.nextGaussian() * 2;
      double worst =
          Overhang.of(Parts.balls(10), dx, dy, deg).stream()
              .mapToDouble(Overhang::offsetMm)
              .max()
              .orElseThrow();
      assertThat(balls.margin(dx, dy, deg)).isCloseTo(0.2 - worst, within(1e-12));
    }
  }

  /** The interval that risk integrates over is where the margin is not negative. */
  @Test
  void chordsEndWhereTheMarginIsZero() {
    Random random = new Random(11);
    double[] out = new double[2];
    for (PartType p : List.of(Parts.chip(), Parts.soic(8), Parts.balls(5))) {
      LandFit fit = LandFit.of(p, LIMITS, 2);
      int inside = 0;
      for (int k = 0; k < 300; k++) {
        double rad = Math.toRadians(random.nextGaussian() * 2);
        double other = random.nextGaussian() * 0.1;
        for (boolean alongX : new boolean[] {true, false}) {
          fit.chord(alongX, rad, other, out);
          if (out[0] > out[1]) {
            continue;
          }
          inside++;
          for (double end : out) {
            assertThat(at(fit, alongX, end, other, rad)).isCloseTo(0, within(1e-9));
          }
          double mid = (out[0] + out[1]) / 2;
          assertThat(at(fit, alongX, mid, other, rad)).isGreaterThanOrEqualTo(0);
        }
      }
      assertThat(inside).isGreaterThan(100);
    }
  }

  private static double at(LandFit fit, boolean alongX, double v, double other, double rad) {
    return alongX ? fit.marginAt(v, other, rad) : fit.marginAt(other, v, rad);
  }

  @Test
  void partFrameTurnsPanelDeviations() {
    // a part placed at 90 degrees: panel +y is its own +x
    assertThat(PartFrame.x(0.1, 0.2, 90)).isEqualTo(0.2);
    assertThat(PartFrame.y(0.1, 0.2, 90)).isEqualTo(-0.1);
    assertThat(PartFrame.x(0.1, 0.2, 180)).isEqualTo(-0.1);
  }
}
