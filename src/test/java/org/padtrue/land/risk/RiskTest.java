package org.padtrue.land.risk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.List;
import java.util.Random;
import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.Independent;
import org.padtrue.land.LandFit;
import org.padtrue.land.Parts;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.numeric.NormalTail;
import org.padtrue.numeric.Probability;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;

/** Probability outside against closed forms, deterministic quadrature and plain Monte Carlo. */
class RiskTest {
  private static final AcceptanceLimits LIMITS = AcceptanceLimits.published();
  private static final double BIVARIATE_TOL = 1e-11;
  private static final GaussIntegratorFactory NODES = new GaussIntegratorFactory();
  private static final NormalDistribution NORMAL = new NormalDistribution();

  private static double twoTails(double k) {
    return 2 * NORMAL.cumulativeProbability(-k);
  }

  /** Against the library's complementary error function, in relative terms as tails matter. */
  @Test
  void normalTailAgreesWithTheLibrary() {
    for (double z = -8; z < 12; z += 0.0173) {
      double expected = 0.5 * Erf.erfc(z / Math.sqrt(2));
      assertThat(NormalTail.above(z)).isCloseTo(expected, within(1e-8 * expected));
    }
  }

  /** P(Z1 > 0, Z2 > 0) = 1/4 + asin(r)/(2 pi) (Sheppard 1899; any text on the bivariate normal). */
  @ParameterizedTest
  @ValueSource(doubles = {-1, -0.999, -0.95, -0.5, 0, 0.3, 0.9, 0.93, 0.999, 1})
  void quadrantProbability(double r) {
    assertThat(NormalTail.bothAbove(0, 0, r))
        .isCloseTo(0.25 + Math.asin(r) / (2 * Math.PI), within(BIVARIATE_TOL));
  }

  /** Second route: P = integral of the conditional tail, by an adaptive library integrator. */
  @Test
  void bivariateTailsAgreeWithAdaptiveIntegration() {
    IterativeLegendreGaussIntegrator g = new IterativeLegendreGaussIntegrator(32, 1e-11, 1e-15);
    Random random = new Random(3);
    for (int i = 0; i < 100; i++) {
      double h = random.nextGaussian() * 2;
      double k = random.nextGaussian() * 2;
      double r = (random.nextDouble() * 2 - 1) * 0.98;
      double s = Math.sqrt(1 - r * r);
      double reference = 0;
      for (double a = h; a < Math.max(9, h + 1); a += 1) {
        reference +=
            g.integrate(
                100_000,
                z -> NORMAL.density(z) * NORMAL.cumulativeProbability((r * z - k) / s),
                a,
                a + 1);
      }
      assertThat(NormalTail.bothAbove(h, k, r)).isCloseTo(reference, within(BIVARIATE_TOL));
    }
  }

  /** Tolerance box, independent coordinates: one minus the product of three intervals. */
  @Test
  void toleranceBoxIsAProduct() {
    LandFit fit = LandFit.of(Parts.withTolerance(0.1, 0.08, 3), LIMITS, 2);
    double x = inside(0.02, 0.04, 0.1);
    double y = inside(-0.01, 0.03, 0.08);
    double r = inside(0.5, 1.2, 3);
    Probability p = new Risk().outside(fit, Independent.part(0.02, -0.01, 0.5, 0.04, 0.03, 1.2));
    assertThat(p.value()).isCloseTo(1 - x * y * r, within(1e-5));
    assertThat(p.standardError()).isLessThan(1e-5);
  }

  private static double inside(double mean, double sd, double limit) {
    return NORMAL.cumulativeProbability((limit - mean) / sd)
        - NORMAL.cumulativeProbability((-limit - mean) / sd);
  }

  /** Chip, rotation known: sides may move 0.45 either way, ends 0.4. */
  @ParameterizedTest
  @ValueSource(doubles = {0.5, 2, 3, 4, 4.9, 5.5})
  void chipThatDoesNotTurn(double k) {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    double sdX = 0.4 / k;
    double sdY = 0.45 / k;
    Probability p = new Risk().outside(fit, Independent.part(0, 0, 0, sdX, sdY, 0));
    double one = twoTails(k);
    // means are zero and nothing is rounded but the spreads (0.01 %), which moves a tail by k^2
    assertThat(p.value()).isCloseTo(2 * one - one * one, withinPercentage(0.01 * k * k + 0.01));
  }

  /**
   * Rotation too, down to 1e-6 and below. Reference: the same probability as a product given the
   * rotation, integrated over it by Gauss nodes; limits by hand (termination centre 0.65, half
   * sides 0.15 x 0.4, land 0.3 to 1.2 by 0.9, class 2).
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.05, 0.06, 0.08, 0.15, 0.3})
  void chipThatTurns(double sd) {
    double sdDeg = 40 * sd;
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    double reference = chipReference(sd, sd, sdDeg);
    Probability p = new Risk().outside(fit, Independent.part(0, 0, 0, sd, sd, sdDeg));
    assertThat(p.value()).isCloseTo(reference, withinPercentage(15));
    assertThat(Math.abs(p.value() - reference))
        .isLessThan(5 * p.standardError() + 1e-3 * reference);
  }

  /** Integral over rotation, 64 Gauss nodes on each of 36 pieces; kinks fall between pieces. */
  private static double chipReference(double sdX, double sdY, double sdDeg) {
    double sum = 0;
    for (double a = -9; a < 9; a += 0.5) {
      GaussIntegrator g = NODES.legendre(64, a, a + 0.5);
      sum += g.integrate(z -> NORMAL.density(z) * chipOutside(Math.toRadians(sdDeg * z), sdX, sdY));
    }
    return sum;
  }

  private static double chipOutside(double a, double sdX, double sdY) {
    double c = Math.cos(a);
    double s = Math.abs(Math.sin(a));
    double side = 0.45 + 0.4 - (0.65 * s + 0.15 * s + 0.4 * c);
    double reach = 0.15 * c + 0.4 * s;
    double end = 1.2 - (0.65 * c + reach);
    double overlap = 0.65 * c + reach - 0.3;
    double room = Math.min(end, overlap);
    if (side < 0 || room < 0) {
      return 1;
    }
    double x = twoTails(room / sdX);
    double y = twoTails(side / sdY);
    return x + y - x * y;
  }

  /** One coordinate with a t: its two tails. */
  @ParameterizedTest
  @ValueSource(doubles = {3, 6, 20})
  void tDistribution(double df) {
    LandFit fit = LandFit.of(Parts.withTolerance(0.1, 0.1, 5), LIMITS, 2);
    for (double k : new double[] {0.7, 2, 4, 8}) {
      DeviationDistribution d = Independent.part(0, 0, 0, 0.1 / k, 0, 0).withDegreesOfFreedom(df);
      double expected = 2 * new TDistribution(df).cumulativeProbability(-k);
      Probability p = new Risk().outside(fit, d);
      // 5e-8 is the error that is let through whatever the value
      assertThat(p.value()).isCloseTo(expected, within(0.15 * expected + 1.5e-7));
      assertThat(Math.abs(p.value() - expected))
          .isLessThan(5 * p.standardError() + 2e-3 * expected);
    }
  }

  /** Plain Monte Carlo on the sign of the margin, correlated coordinates, every kind of judge. */
  @Test
  void agreesWithPlainMonteCarlo() {
    List<PartType> parts =
        List.of(Parts.chip(), Parts.soic(14), Parts.balls(6), Parts.withTolerance(0.15, 0.12, 2.5));
    Random random = new Random(99);
    int n = 200_000;
    for (PartType part : parts) {
      LandFit fit = LandFit.of(part, LIMITS, 2);
      boolean chip = part.kind() == JointKind.CHIP && part.tolerance() == null;
      double sd = chip ? 0.15 : 0.08;
      double sdDeg = chip ? 6 : 0.8;
      DeviationDistribution d =
          new DeviationDistribution(
              0.04,
              -0.06,
              0.3,
              sd * sd,
              sd * sd / 2,
              sdDeg * sdDeg,
              0.6 * sd * sd / Math.sqrt(2),
              0.3 * sd * sdDeg,
              -0.2 * sd / Math.sqrt(2) * sdDeg,
              8);
      int out = 0;
      for (int i = 0; i < n; i++) {
        double w = Math.sqrt(8 / chiSquare(8, random));
        double a = random.nextGaussian();
        double b = random.nextGaussian();
        double c = random.nextGaussian();
        // Cholesky factor of the correlations 0.6 (x y), 0.3 (x r), -0.2 (y r)
        double l22 = 0.8;
        double l32 = (-0.2 - 0.6 * 0.3) / l22;
        double l33 = Math.sqrt(1 - 0.09 - l32 * l32);
        double x = 0.04 + w * sd * a;
        double y = -0.06 + w * sd / Math.sqrt(2) * (0.6 * a + l22 * b);
        double r = 0.3 + w * sdDeg * (0.3 * a + l32 * b + l33 * c);
        out += fit.margin(x, y, r) < 0 ? 1 : 0;
      }
      double share = out / (double) n;
      Probability p = new Risk().outside(fit, d);
      double noise = Math.sqrt(share * (1 - share) / n);
      assertThat(share).isBetween(0.005, 0.9);
      assertThat(p.value())
          .as(part.name())
          .isCloseTo(share, within(4 * noise + 4 * p.standardError()));
    }
  }

  private static double chiSquare(int df, Random random) {
    double s = 0;
    for (int i = 0; i < df; i++) {
      double g = random.nextGaussian();
      s += g * g;
    }
    return s;
  }

  /** One ball on one land, round scatter: the Rayleigh tail exp(-r^2 / 2 sd^2). */
  @ParameterizedTest
  @ValueSource(doubles = {0.2, 0.1, 0.05, 0.038})
  void singleBallIsRayleigh(double sd) {
    LandFit fit = LandFit.of(Parts.balls(1), LIMITS, 2);
    double expected = Math.exp(-0.2 * 0.2 / (2 * sd * sd));
    Probability p = new Risk().outside(fit, Independent.part(0, 0, 0, sd, sd, 0));
    assertThat(p.value()).isCloseTo(expected, withinPercentage(15));
    assertThat(Math.abs(p.value() - expected)).isLessThan(5 * p.standardError() + 2e-3 * expected);
  }

  /** The stated error is honest: over random cases the true error is rarely above two of it. */
  @Test
  void statedErrorCoversTheTrueError() {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    Random random = new Random(17);
    int within2 = 0;
    int cases = 60;
    for (int i = 0; i < cases; i++) {
      double sdX = 0.06 + 0.1 * random.nextDouble();
      double sdY = 0.06 + 0.1 * random.nextDouble();
      double sdDeg = 0.5 + 8 * random.nextDouble();
      double reference = chipReference(sdX, sdY, sdDeg);
      Probability p = new Risk().outside(fit, Independent.part(0, 0, 0, sdX, sdY, sdDeg));
      // 0.1 %: the rounding of the spreads
      within2 +=
          Math.abs(p.value() - reference) <= 2 * p.standardError() + 1e-3 * reference ? 1 : 0;
      assertThat(p.value()).isCloseTo(reference, withinPercentage(15));
    }
    assertThat(within2).isGreaterThanOrEqualTo(51);
  }

  @Test
  void sameInputSameResultWhateverWasAskedBefore() {
    LandFit fit = LandFit.of(Parts.soic(8), LIMITS, 3);
    DeviationDistribution d =
        Independent.part(0.05, 0.02, 0.1, 0.05, 0.05, 0.5).withDegreesOfFreedom(9);
    Risk first = new Risk();
    Probability a = first.outside(fit, d);
    Risk second = new Risk();
    for (int i = 0; i < 20; i++) {
      second.outside(fit, Independent.part(0.001 * i, 0, 0, 0.04, 0.06, 0.3));
    }
    // a LandFit of its own, and a mean that differs by less than is told apart
    assertThat(second.outside(LandFit.of(Parts.soic(8), LIMITS, 3), d)).isEqualTo(a);
    assertThat(first.outside(fit, d)).isSameAs(a);
  }

  @Test
  void farInsideIsNegligibleByABound() {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    Probability p = new Risk().outside(fit, Independent.part(0, 0, 0, 0.03, 0.03, 0.5));
    assertThat(p.value()).isZero();
    assertThat(p.points()).isZero();
    assertThat(p.standardError()).isEqualTo(Risk.NEGLIGIBLE);
  }

  @Test
  void withoutSpreadItIsAllOrNothing() {
    LandFit fit = LandFit.of(Parts.chip(), LIMITS, 2);
    Risk risk = new Risk();
    assertThat(risk.outside(fit, Independent.part(0, 0.5, 0, 0, 0, 0)).value()).isEqualTo(1);
    assertThat(risk.outside(fit, Independent.part(0, 0.3, 0, 0, 0, 0)).value()).isZero();
  }

  @Test
  void unknownPartIsNotJudged() {
    LandFit fit = LandFit.of(PartType.unknown("X"), LIMITS, 2);
    assertThat(new Risk().outside(fit, Independent.part(0, 0, 0, 1, 1, 1)).value()).isNaN();
  }

  /** Panel frame to part frame and a quarter turn: variances swap, the covariance changes sign. */
  @Test
  void distributionTurnsWithThePart() {
    DeviationDistribution d =
        new DeviationDistribution(0.1, 0.2, 1, 4, 9, 1, 2, 0.5, 0.25, Double.POSITIVE_INFINITY)
            .inPartFrame(90);
    assertThat(d.dxMm()).isEqualTo(0.2);
    assertThat(d.dyMm()).isEqualTo(-0.1);
    assertThat(d.varX()).isEqualTo(9);
    assertThat(d.varY()).isEqualTo(4);
    assertThat(d.covXY()).isEqualTo(-2);
    assertThat(d.covXRotation()).isEqualTo(0.25);
    assertThat(d.covYRotation()).isEqualTo(-0.5);
  }

  /** Rounding in a covariance that should be zero is no fault; a variance below zero is. */
  @Test
  void roundingBelowZeroIsZero() {
    DeviationDistribution d =
        new DeviationDistribution(0, 0, 0, -1e-18, 1, 1, 0, 0, 0, Double.POSITIVE_INFINITY);
    assertThat(d.varX()).isZero();
    assertThat(new PairSpread(1, -1e-18, 0, 0, 0).varY()).isZero();
    assertThatThrownBy(() -> new PairSpread(1, -0.1, 0, 0, 0))
        .hasMessage("a variance is negative: -0.1");
  }
}
