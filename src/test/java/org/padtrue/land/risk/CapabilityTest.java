package org.padtrue.land.risk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.numeric.NormalTail;

class CapabilityTest {

  /** NIST/SEMATECH e-Handbook 6.1.6: USL 20, LSL 8, mean 16, s 2. */
  @Test
  void handbookExample() {
    Capability c = new Capability(50, 16, 2, 8, 20);
    assertThat(c.cp()).isCloseTo(1.0, within(1e-12));
    assertThat(c.cpUpper()).isCloseTo(0.6667, within(5e-5));
    assertThat(c.cpLower()).isCloseTo(1.3333, within(5e-5));
    assertThat(c.cpk()).isCloseTo(0.6667, within(5e-5));
  }

  /** Formulas of the same page: n 50, Cpk 1.33 gives 1.0509 to 1.6091. */
  @Test
  void intervals() {
    double sd = 1 / (3 * 1.33);
    Capability c = new Capability(50, 0, sd, -1, 1);
    assertThat(c.cpk()).isCloseTo(1.33, within(1e-12));
    // one-sided 97.5 % is the lower end of the two-sided 95 %
    assertThat(c.cpkLower(0.975)).isCloseTo(1.0509, within(5e-5));
    assertThat(c.cpkLower95()).isBetween(1.0509, 1.33);
  }

  /**
   * The bound holds: simulated samples, true Cpk 1.2; approximate, so 93 to 97.5 % are accepted.
   */
  @Test
  void lowerBoundCoversAsStated() {
    Random random = new Random(4);
    double sd = 0.8 / 3.6;
    int runs = 4000;
    int covered = 0;
    double[] ones = new double[30];
    java.util.Arrays.fill(ones, 1);
    for (int r = 0; r < runs; r++) {
      double[] d = new double[30];
      for (int i = 0; i < d.length; i++) {
        d[i] = 0.2 + sd * random.nextGaussian();
      }
      covered += Capability.scaled(d, ones).cpkLower95() <= 1.2 ? 1 : 0;
    }
    assertThat(covered / (double) runs).isBetween(0.93, 0.975);
  }

  @Test
  void eachValueIsScaledByItsOwnToleranceAndUnjudgedOnesAreLeftOut() {
    double[] d = {0.02, -0.03, 0.05, Double.NaN, 0.07};
    double[] t = {0.1, 0.1, 0.25, 0.1, Double.NaN};
    Capability c = Capability.scaled(d, t);
    assertThat(c.count()).isEqualTo(3);
    // 0.2, -0.3, 0.2: mean 0.1/3, squares about it 0.17 - 0.01/3
    assertThat(c.mean()).isCloseTo(0.1 / 3, within(1e-12));
    assertThat(c.sd()).isCloseTo(Math.sqrt((0.17 - 0.01 / 3) / 2), within(1e-12));
    assertThat(Capability.scaled(new double[] {1}, new double[] {2}).cpk()).isNaN();
    assertThat(Capability.scaled(new double[0], new double[0]).cpkLower95()).isNaN();
  }

  /** NIST/SEMATECH e-Handbook 7.2.6.3: n 43, coverage 90 %, confidence 99 %. */
  @Test
  void toleranceFactorsOfTheHandbook() {
    assertThat(ToleranceFactor.twoSidedHowe(43, 0.90, 0.99)).isCloseTo(2.2173, within(5e-5));
    // the page's interval: 97.07 +- k 0.0268
    assertThat(97.07 - 0.0268 * ToleranceFactor.twoSidedHowe(43, 0.90, 0.99))
        .isCloseTo(97.0106, within(5e-5));
  }

  /** Same case, exact: two-sided integral 2.22283 (a statistics package). */
  @Test
  void exactToleranceFactors() {
    assertThat(ToleranceFactor.twoSided(43, 0.90, 0.99)).isCloseTo(2.22283, within(5e-6));
  }

  /**
   * Printed tables of exact factors, 95 % confidence: ISO 16269-6 (from memory, three decimals).
   */
  @ParameterizedTest
  @CsvSource({"10, 0.95, 3.393", "20, 0.95, 2.760", "30, 0.99, 3.355"})
  void twoSidedTable(int n, double coverage, double k) {
    assertThat(ToleranceFactor.twoSided(n, coverage, 0.95)).isCloseTo(k, within(1e-2));
  }

  /** Definition, by simulation: share of samples whose interval holds 90 %, wanted 95 %. */
  @Test
  void twoSidedFactorDoesWhatItSays() {
    Random random = new Random(6);
    int n = 8;
    double k = ToleranceFactor.twoSided(n, 0.9, 0.95);
    int runs = 20_000;
    int hold = 0;
    for (int r = 0; r < runs; r++) {
      double sum = 0;
      double squares = 0;
      for (int i = 0; i < n; i++) {
        double g = random.nextGaussian();
        sum += g;
        squares += g * g;
      }
      double m = sum / n;
      double s = Math.sqrt((squares - n * m * m) / (n - 1));
      double share = NormalTail.above(m - k * s) - NormalTail.above(m + k * s);
      hold += share >= 0.9 ? 1 : 0;
    }
    // three standard errors of a share of 0.95 in 20,000
    assertThat(hold / (double) runs).isCloseTo(0.95, within(0.0047));
  }

  @Test
  void misuseIsRefused() {
    assertThatThrownBy(() -> ToleranceFactor.twoSided(1, 0.9, 0.95))
        .hasMessage("n = 1; expected 2 or more");
    assertThatThrownBy(() -> ToleranceFactor.twoSided(5, 1, 0.95))
        .hasMessage("coverage = 1.0, confidence = 0.95; expected between 0 and 1");
  }
}
