package org.padtrue.land.risk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.land.Parts;
import org.padtrue.numeric.Probability;
import org.padtrue.panel.PartType;

/** Deviations that go together: each correlation with its sign and its own place. */
class CorrelatedRiskTest {
  private static final int DRAWS = 40_000;
  private static final double SD_X = 0.06;
  private static final double SD_Y = 0.05;
  private static final double SD_DEG = 0.7;
  private static final double[] MEAN = {0.03, -0.04, 0.3};

  private static LandFit fit(PartType part) {
    return LandFit.of(part, AcceptanceLimits.published(), 2);
  }

  private static DeviationDistribution spread(double xy, double xr, double yr) {
    return new DeviationDistribution(
        MEAN[0],
        MEAN[1],
        MEAN[2],
        SD_X * SD_X,
        SD_Y * SD_Y,
        SD_DEG * SD_DEG,
        xy * SD_X * SD_Y,
        xr * SD_X * SD_DEG,
        yr * SD_Y * SD_DEG,
        Double.POSITIVE_INFINITY);
  }

  /** Covariance over both standard deviations, by hand; nought where one of them is. */
  @Test
  void correlationsOfACase() {
    LandFit fit = fit(Parts.withTolerance(0.1, 0.1, 1));
    RiskCase c = RiskCase.of(fit, spread(0.25, -0.5, 0.75));
    assertThat(c.correlationXY()).isCloseTo(0.25, within(1e-12));
    assertThat(c.correlationXR()).isCloseTo(-0.5, within(1e-12));
    assertThat(c.correlationYR()).isCloseTo(0.75, within(1e-12));
    assertThat(c.spreadX()).isCloseTo(SD_X, within(1e-4 * SD_X));
    assertThat(c.spreadRad()).isCloseTo(Math.toRadians(SD_DEG), within(1e-4 * SD_DEG));
    DeviationDistribution still =
        new DeviationDistribution(0, 0, 0, 0.01, 0, 0, 0.1, 0.1, 0.1, Double.POSITIVE_INFINITY);
    RiskCase none = RiskCase.of(fit, still);
    assertThat(new double[] {none.correlationXY(), none.correlationXR(), none.correlationYR()})
        .containsExactly(0, 0, 0);
    // rounding may leave a covariance a little beyond what both spreads allow
    assertThat(RiskCase.of(fit, spread(1.001, -1.001, 0)).correlationXY()).isEqualTo(1);
    assertThat(RiskCase.of(fit, spread(0, -1.001, 0)).correlationXR()).isEqualTo(-1);
  }

  /** Second route: plain draws from the three normals by their Cholesky factor, written out. */
  @ParameterizedTest
  @CsvSource({
    "0.6,0.7,0.5",
    "-0.6,0.7,-0.5",
    "0.2,-0.7,0.5",
    "-0.8,0,0",
    "0.8,0,0",
    "0,0.8,0",
    "0,-0.8,0",
    "0,0,0.8",
    "0,0,-0.8"
  })
  void agreesWithPlainDraws(double xy, double xr, double yr) {
    for (PartType part :
        new PartType[] {Parts.withTolerance(0.12, 0.1, 1.5), Parts.chip(), Parts.balls(3)}) {
      LandFit fit = fit(part);
      double left = Math.sqrt(1 - xr * xr);
      double b = (xy - xr * yr) / left;
      double c = Math.sqrt(1 - yr * yr - b * b);
      Random random = new Random(23);
      int draws = part.terminations().size() > 2 ? DRAWS / 10 : DRAWS;
      int out = 0;
      for (int i = 0; i < draws; i++) {
        double z0 = random.nextGaussian();
        double z1 = random.nextGaussian();
        double z2 = random.nextGaussian();
        double x = MEAN[0] + SD_X * (xr * z0 + left * z1);
        double y = MEAN[1] + SD_Y * (yr * z0 + b * z1 + c * z2);
        out += fit.margin(x, y, MEAN[2] + SD_DEG * z0) < 0 ? 1 : 0;
      }
      double p = (double) out / draws;
      Probability found = new Risk().outside(fit, spread(xy, xr, yr));
      double se = Math.hypot(Math.sqrt(p * (1 - p) / draws), found.standardError());
      assertThat(found.value()).as(part.name()).isCloseTo(p, within(4 * se + 1e-6));
    }
  }
}
