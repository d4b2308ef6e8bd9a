package org.padtrue.drift.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.padtrue.drift.Data;
import org.padtrue.numeric.Tail;

/** Validation: trends against published examples; the weighted forms against the plain ones. */
class TrendValidationTest {
  private static final double[] SEN_X = {1, 2, 3, 4, 10, 12, 18};
  private static final double[] SEN_Y = {9, 15, 19, 20, 45, 55, 78};

  /**
   * Sen (1968), as in the test suite of SciPy: slope 4, intercept 4, 93 % interval 3.71 to 4.38.
   */
  @Test
  void senExample() {
    TheilSen t = TheilSen.fit(SEN_X, SEN_Y, 0.93, TheilSen.Law.NORMAL);
    assertThat(t.slope()).isEqualTo(4);
    assertThat(t.intercept()).isEqualTo(4);
    assertThat(t.low()).isEqualTo(26.0 / 7);
    assertThat(t.high()).isEqualTo(35.0 / 8);
  }

  /**
   * With Kendall's exact law the interval for 93 % runs from the 5th to the 17th slope and covers 1
   * - 2 P(S &gt;= 13) = 0.9310 (174 of 5040 orders have at most 4 inversions).
   */
  @Test
  void exactIntervalTakesKendallsLaw() {
    TheilSen t = TheilSen.fit(SEN_X, SEN_Y, 0.93);
    assertThat(t.exact()).isTrue();
    assertThat(t.low()).isEqualTo(15.0 / 4);
    assertThat(t.high()).isEqualTo(46.0 / 11);
    assertThat(t.confidence()).isCloseTo(1 - 2 * 174 / 5040.0, within(1e-12));
  }

  /** The coverage that it claims, over 60 000 noisy lines; standard error 0.0010. */
  @Test
  void exactIntervalCoversWhatItClaims() {
    Random random = new Random(55);
    int covered = 0;
    int lines = 60_000;
    for (int r = 0; r < lines; r++) {
      double[] y = new double[7];
      for (int i = 0; i < 7; i++) {
        y[i] = 2 * SEN_X[i] + random.nextGaussian();
      }
      TheilSen t = TheilSen.fit(SEN_X, y, 0.93);
      covered += t.low() <= 2 && t.high() >= 2 ? 1 : 0;
    }
    assertThat(covered / (double) lines).isCloseTo(0.9310, within(0.0031));
  }

  /** Three points 0 1 1: slope 0.5, intercept 0.5 by separate medians (test suite of SciPy). */
  @Test
  void tiesInY() {
    TheilSen t = TheilSen.fit(new double[] {0, 1, 2}, new double[] {0, 1, 1}, 0.95);
    assertThat(t.slope()).isEqualTo(0.5);
    assertThat(t.intercept()).isEqualTo(0.5);
    assertThat(t.exact()).isFalse();
  }

  /** Nile 1871 to 1970; values recomputed from the data with SciPy's formulas, ties corrected. */
  @Test
  void nile() {
    double[] year = Data.column("nile.csv", "year");
    double[] flow = Data.column("nile.csv", "flow");
    MannKendall m = MannKendall.test(year, flow);
    assertThat(m.s()).isEqualTo(-1387);
    assertThat(m.variance()).isCloseTo(112728.3333, within(1e-3));
    assertThat(m.z()).isCloseTo(-4.128067, within(1e-6));
    assertThat(m.p()).isCloseTo(3.658e-5, within(5e-9));
    assertThat(m.tauA()).isCloseTo(-0.280202, within(1e-6));
    assertThat(m.tauB()).isCloseTo(-0.280741, within(1e-6));
    TheilSen t = TheilSen.fit(year, flow, 0.95);
    assertThat(t.slope()).isCloseTo(-2.6, within(1e-9));
    assertThat(t.low()).isCloseTo(-3.6279, within(2e-2));
    assertThat(t.high()).isCloseTo(-1.4286, within(2e-2));
  }

  /** Kendall's exact law for 4 points: 1, 3, 5, 6, 5, 3, 1 of 24 orders. */
  @Test
  void kendallLaw() {
    assertThat(KendallDistribution.upper(4, 6)).isCloseTo(1 / 24.0, within(1e-15));
    assertThat(KendallDistribution.upper(4, 4)).isCloseTo(4 / 24.0, within(1e-15));
    assertThat(KendallDistribution.upper(4, -6)).isCloseTo(1, within(1e-15));
  }

  /** With equal weights the weighted variance is Kendall's n(n-1)(2n+5)/18. */
  @Test
  void weightedVarianceIsKendallsWhenWeightsAreEqual() {
    int n = 40;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = i;
    }
    double v = KendallVariance.of(x, Data.fill(n, 1), Data.fill(n, 1));
    assertThat(v).isCloseTo(n * (n - 1) * (2 * n + 5) / 18.0, Percentage.withPercentage(0.2));
  }

  /**
   * Points of very different worth and no trend: the p value is uniform (5 % under 0.05, standard
   * error 0.006) and the interval covers zero as often as it says.
   */
  @Test
  void weightedTestHoldsItsLevel() {
    Random random = new Random(9);
    int n = 40;
    int runs = 1500;
    int rejected = 0;
    int covered = 0;
    double[] x = new double[n];
    double[] sigma = new double[n];
    for (int r = 0; r < runs; r++) {
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        x[i] = i;
        sigma[i] = i % 3 == 0 ? 5 : 1;
        y[i] = sigma[i] * random.nextGaussian();
      }
      Trend t = Trend.fit(x, y, sigma, 0.95);
      rejected += t.p() < 0.05 ? 1 : 0;
      covered += t.low() <= 0 && t.high() >= 0 ? 1 : 0;
    }
    assertThat(rejected / (double) runs).isBetween(0.033, 0.067);
    assertThat(covered / (double) runs).isBetween(0.933, 0.967);
  }

  /** Listed slopes and the root of the statistic agree to the gap between neighbouring slopes. */
  @Test
  void listedAndSolvedAgree() {
    Random random = new Random(3);
    int n = 58;
    double[] x = new double[n];
    double[] y = new double[n];
    double[] sigma = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = i / 2;
      sigma[i] = 0.5 + random.nextDouble();
      y[i] = 0.01 * x[i] + sigma[i] * random.nextGaussian();
    }
    Trend listed = Trend.fit(x, y, sigma, 0.95);
    double[] w = new double[n];
    double mean = java.util.Arrays.stream(sigma).average().orElseThrow();
    for (int i = 0; i < n; i++) {
      w[i] = mean / sigma[i];
    }
    PairScore score = new PairScore(x, y, w);
    double reach = Tail.normalUpper(0.025) * Math.sqrt(KendallVariance.of(x, w, sigma));
    double tol = 0.03 * (listed.high() - listed.low());
    assertThat(score.solve(0)).isCloseTo(listed.slope(), within(tol));
    assertThat(score.solve(reach)).isCloseTo(listed.low(), within(tol));
    assertThat(score.solve(-reach)).isCloseTo(listed.high(), within(tol));
  }
}
