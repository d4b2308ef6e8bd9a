package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.MersenneTwister;
import org.apache.commons.math3.random.RandomGenerator;
import org.junit.jupiter.api.Test;
import org.padtrue.mixed.ModeratedScatter.Belief;
import org.padtrue.numeric.ScatterPrior;

/** What moderated variances of few and of many groups have to be; coverage has its own test. */
class ModeratedScatterTest {
  private static final double[] S2 = {1.4e-4, 2.6e-3, 4e-4, 1.2e-4};
  private static final double[] D = {11, 4.5, 20, 0.7};

  @Test
  void oneGroupKeepsItsOwn() {
    ModeratedScatter m = ModeratedScatter.of(new double[] {3e-4}, new double[] {7.5});
    assertThat(m.variance()).containsExactly(3e-4);
    assertThat(m.df()).containsExactly(7.5);
    // R 4.2.2: 7.5 / qchisq(c(0.975, 0.025), 7.5).
    assertThat(m.low()[0]).isCloseTo(3e-4 * 0.447006324074293, within(1e-12));
    assertThat(m.high()[0]).isCloseTo(3e-4 * 3.88482555005757, within(1e-12));
  }

  /** s0 flat in its logarithm: integrals and lattice included, t of s^2 and d comes out again. */
  @Test
  void theOnlyGroupThatTellsKeepsItsOwnAndOthersLeanOnIt() {
    for (double df : new double[] {1, 3.3, 12, 150}) {
      ModeratedScatter m = ModeratedScatter.of(new double[] {9, 4, 1}, new double[] {0, df, 0});
      assertThat(m.df()[1]).isCloseTo(df, within(0.02 * df));
      assertThat(m.variance()[1]).isCloseTo(4, within(0.01 * 4));
      assertThat(m.df()[0]).isLessThan(Math.min(df, 4)).isEqualTo(m.df()[2]);
      assertThat(m.variance()[0]).isBetween(2.0, 8.0).isEqualTo(m.variance()[2]);
      assertThat(m.typical()).isBetween(2.0, 8.0);
    }
  }

  @Test
  void unitsAndOrderDoNotMatter() {
    ModeratedScatter m = ModeratedScatter.of(S2, D);
    double[] s2 = new double[4];
    double[] d = new double[4];
    for (int k = 0; k < 4; k++) {
      s2[3 - k] = 1e6 * S2[k];
      d[3 - k] = D[k];
    }
    ModeratedScatter r = ModeratedScatter.of(s2, d);
    for (int k = 0; k < 4; k++) {
      assertThat(r.variance()[3 - k] / 1e6)
          .isCloseTo(m.variance()[k], within(1e-6 * m.variance()[k]));
      assertThat(r.df()[3 - k]).isCloseTo(m.df()[k], within(1e-5 * m.df()[k]));
      assertThat(r.high()[3 - k] / 1e6).isCloseTo(m.high()[k], within(1e-6 * m.high()[k]));
      assertThat(m.low()[k]).isPositive().isLessThan(m.variance()[k]);
      assertThat(m.high()[k]).isGreaterThan(m.variance()[k]);
    }
  }

  @Test
  void aGroupLeansTheMoreTheFewerItHas() {
    double[] last = {Double.NaN, 0, 0};
    for (double d : new double[] {0, 0.01, 0.5, 2, 8, 40, 400}) {
      ModeratedScatter m =
          ModeratedScatter.of(new double[] {1, 1.1, 0.9, 16}, new double[] {20, 20, 20, d});
      assertThat(m.variance()[3]).isGreaterThan(last[1]);
      last[1] = m.variance()[3];
      last[2] = m.df()[3];
    }
    assertThat(last[1]).isCloseTo(16, within(0.2));
    assertThat(last[2]).isCloseTo(400, within(12.0));
  }

  @Test
  void anOddGroupIsNamedAndSparesTheOthers() {
    double[] s2 = {1, 1.2, 0.8, 1, 0.9, 1.1, 1, 16};
    double[] d = {20, 20, 20, 20, 20, 20, 20, 20};
    ModeratedScatter m = ModeratedScatter.of(s2, d);
    assertThat(m.odd()[7]).isGreaterThan(0.9);
    assertThat(m.variance()[7]).isBetween(13.0, 17.0);
    for (int k = 0; k < 7; k++) {
      assertThat(m.odd()[k]).isLessThan(0.1);
      assertThat(m.variance()[k]).isBetween(0.88, 1.12);
      assertThat(m.df()[k]).isGreaterThan(40);
    }
  }

  @Test
  void extremesGiveNumbers() {
    ModeratedScatter none = ModeratedScatter.of(new double[] {0, 0}, new double[] {3, 4});
    assertThat(none.variance()).containsExactly(0, 0);
    assertThat(none.df()).containsExactly(7, 7);
    double[][][] cases = {
      {{0, 1}, {3, 4}},
      {{1, 1e8}, {500, 500}},
      {{1, 2, 3}, {0.001, 0.05, 0.02}},
      {{1, Double.NaN}, {5000, 0}},
      {{1e-9, 1, 1, 1e9}, {1, 1, 1, 1}}
    };
    for (double[][] c : cases) {
      ModeratedScatter m = ModeratedScatter.of(c[0], c[1]);
      for (int k = 0; k < c[0].length; k++) {
        assertThat(m.variance()[k]).as(Arrays.deepToString(c)).isPositive().isFinite();
        assertThat(m.df()[k]).as(Arrays.deepToString(c)).isPositive().isFinite();
      }
    }
    assertThatThrownBy(() -> ModeratedScatter.of(new double[] {1}, new double[] {0}))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** Without odd groups the average tends to limma's plug-in as groups grow; with them, nearly. */
  @Test
  void manyGroupsTendToLimma() {
    RandomGenerator g = new MersenneTwister(20260314);
    double[] off = new double[3];
    double[] offRobust = new double[3];
    int[] groups = {10, 40, 160};
    for (int i = 0; i < 3; i++) {
      int n = groups[i];
      int draws = 160 / n;
      for (int r = 0; r < draws; r++) {
        double[] s2 = new double[n];
        double[] d = new double[n];
        for (int k = 0; k < n; k++) {
          d[k] = 8;
          double sigma2 = 5 / new GammaDistribution(g, 5, 1).sample();
          s2[k] = sigma2 * new GammaDistribution(g, 4, 2.0 / 8).sample();
        }
        double[] limma = ScatterPrior.ofMoments(s2, d).variances(s2, d);
        ModeratedScatter plain = ModeratedScatter.of(s2, d, new Belief(0.5, 1e-9, 1));
        ModeratedScatter robust = ModeratedScatter.of(s2, d);
        for (int k = 0; k < n; k++) {
          off[i] += Math.pow(Math.log(plain.variance()[k] / limma[k]), 2) / (n * draws);
          offRobust[i] += Math.pow(Math.log(robust.variance()[k] / limma[k]), 2) / (n * draws);
        }
      }
      System.out.printf(
          "%d groups: RMS log ratio of variances to limma's %.4f, with odd groups allowed %.4f%n",
          n, Math.sqrt(off[i]), Math.sqrt(offRobust[i]));
    }
    // 2.5 and 5 % of a standard deviation, far below what 8 degrees of freedom leave open (25 %).
    assertThat(Math.sqrt(off[2])).isLessThan(0.05);
    assertThat(off[2]).isLessThan(off[0]);
    assertThat(Math.sqrt(offRobust[2])).isLessThan(0.1);
  }
}
