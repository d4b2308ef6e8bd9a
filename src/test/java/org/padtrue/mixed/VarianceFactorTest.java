package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;

class VarianceFactorTest {
  /** Against Commons Math's own quantiles. */
  @Test
  void isTheQuantileOfTheLibrary() {
    VarianceFactor f = new VarianceFactor();
    for (double df : new double[] {2, 4, 9.5, 60}) {
      for (double u : new double[] {0.001, 0.025, 0.3, 0.5, 0.81, 0.975, 0.999}) {
        double exact = df / new ChiSquaredDistribution(null, df).inverseCumulativeProbability(u);
        assertThat(f.at(u, df) / exact).as("df %s, u %s", df, u).isCloseTo(1, within(2e-3));
      }
    }
    assertThat(f.at(0.1, Double.NaN)).isEqualTo(1);
    assertThat(f.at(0.1, 1e6)).isEqualTo(1);
  }
}
