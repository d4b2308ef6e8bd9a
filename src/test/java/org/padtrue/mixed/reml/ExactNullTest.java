package org.padtrue.mixed.reml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.padtrue.ReferenceData;
import org.padtrue.mixed.CrossedArticle;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.OffsetModel;
import org.padtrue.mixed.OffsetOptions;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Factor;

/**
 * The null distribution of a variance's restricted likelihood ratio against R's RLRsim (a million
 * draws, values by src/test/r/exact-null.R) and against the F distribution, which it is for a
 * balanced one-way layout. Tolerances are four standard errors of our 10,000 draws, or of the 500
 * beyond at which they end, those of the reference being a tenth of them.
 */
class ExactNullTest {
  private static final double DRAWS = 1e4;

  private static double tolerance(double p) {
    return 4 * Math.max(Math.sqrt(p * (1 - p) / DRAWS), p * Math.sqrt((1 - p) / 500));
  }

  @Test
  void tailsAreThoseOfRlrsim() {
    for (String[] r : ReferenceData.rows(ExactNullTest.class, "exact-null-quantiles.csv")) {
      double[] mu = Arrays.stream(r[6].split(" ")).mapToDouble(Double::parseDouble).toArray();
      ExactNull n = new ExactNull(mu, Integer.parseInt(r[1]));
      boolean many = mu.length >= ExactNull.MANY;
      double[] p = {0.1, 0.05, 0.01, 1 - Double.parseDouble(r[5])};
      for (int k = 0; k < p.length; k++) {
        double x = k < 3 ? Double.parseDouble(r[2 + k]) : 1e-6;
        // Where levels are many the mixture stands in, off by at most the 4.4 % for 5 % of 50
        // levels.
        double tol = many ? 0.12 * p[k] : tolerance(p[k]);
        assertThat(n.p(x)).as(r[0] + " " + p[k]).isCloseTo(p[k], within(tol));
      }
    }
  }

  /** Balanced one-way: the ratio is a rising function of F = mean square between over within. */
  @Test
  void balancedOneWayIsAnFTest() {
    for (int levels : new int[] {2, 3, 4, 8, 20}) {
      int each = 5;
      int between = levels - 1;
      int within = levels * (each - 1);
      int df = levels * each - 1;
      double[] mu = new double[between];
      Arrays.fill(mu, each);
      ExactNull n = new ExactNull(mu, df);
      for (double f : new double[] {1.2, 2, 3, 5, 8}) {
        double ms = (between * f + within) / df;
        double ratio = df * Math.log(ms) - between * Math.log(f);
        double p = Tails.f(f, between, within);
        // The tail beyond the 100 largest draws is on the careful side, by at most a half.
        double tol = p > 0.01 ? tolerance(p) : 0.5 * p + tolerance(p);
        assertThat(n.p(ratio)).as(levels + " levels, F " + f).isCloseTo(p, within(tol));
      }
    }
  }

  /** The ratio that data show, by eigenvalues, is that of the deviances. */
  @Test
  void heldRatioIsTheDropInDeviance() {
    double[] mu = {5, 5, 5};
    // F = 4 on 3 and 16 degrees of freedom, mean square within 1: sums 12 and 16.
    double ratio = ExactNull.ratio(mu, new double[] {12, 0, 0}, 28, 19);
    assertThat(ratio).isCloseTo(19 * Math.log(28 / 19.0) - 3 * Math.log(4), within(1e-4));
    assertThat(ExactNull.ratio(mu, new double[] {1, 1, 0.9}, 18.9, 19)).isZero();
  }

  /**
   * Part type and nozzle in one model: ratios to 1e-4 of lme4's, p with the other variances held as
   * RLRsim gives it for the whitened design; RLRsim's own p, which leaves the others out of the
   * null, is 0.016 away where it can be compared.
   */
  @Test
  void testsOfAnArticleAreThoseOfRlrsim() {
    List<String[]> rows = ReferenceData.rows(ExactNullTest.class, "exact-null-tests.csv");
    OffsetFit fit =
        OffsetModel.fit(
            CrossedArticle.table(),
            new OffsetOptions(
                PanelFamily.AFFINE,
                false,
                false,
                false,
                true,
                List.of(Factor.PART, Factor.NOZZLE),
                Set.of()));
    int compared = 0;
    for (String[] r : rows) {
      for (FactorEffect e : fit.effects()) {
        boolean x = r[0].equals(e.factor() + " x");
        if (!x && !r[0].equals(e.factor() + " y")) {
          continue;
        }
        VarianceTest t = x ? e.testX() : e.testY();
        double ratio = Double.parseDouble(r[1]);
        double p = Double.parseDouble(r[3]);
        assertThat(t.ratio()).as(r[0]).isCloseTo(ratio, within(1e-4 * (1 + ratio)));
        assertThat(t.p()).as(r[0]).isCloseTo(p, within(tolerance(p) + 1e-5));
        compared++;
      }
    }
    assertThat(compared).isEqualTo(4);
  }

  /** Dyestuff: statistic and p by exactRLRT. */
  @Test
  void dyestuff() {
    String[] r = ReferenceData.rows(ExactNullTest.class, "exact-null-tests.csv").get(0);
    RandomEffects m = RandomEffectsValidationTest.intercept("lme4-dyestuff.csv", 1, 0);
    VarianceTest t = m.test(m.fit(Estimation.REML), 0);
    double p = Double.parseDouble(r[3]);
    assertThat(t.ratio()).isCloseTo(Double.parseDouble(r[1]), within(1e-5));
    assertThat(t.p()).isCloseTo(p, within(tolerance(p)));
    VarianceTest joint = m.joint(new double[] {0}, 0);
    assertThat(joint.ratio()).isCloseTo(t.ratio(), within(1e-4));
    assertThat(joint.p()).isCloseTo(t.p(), within(1e-3));
  }
}
