package org.padtrue.drift;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.padtrue.drift.cause.Segmentation;
import org.padtrue.drift.cause.SlowPart;
import org.padtrue.drift.cause.SupF;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.numeric.Holm;
import org.padtrue.numeric.Regression;
import org.padtrue.numeric.Tail;

/** Validation: regression, settling, breaks, variance between articles, Holm, quantiles. */
class FitsValidationTest {
  /** NIST StRD Norris, certified: slope, its standard deviation, residual standard deviation. */
  @Test
  void regressionOnNorris() {
    double[] x = Data.column("nist-strd-norris.csv", "x");
    double[] y = Data.column("nist-strd-norris.csv", "y");
    Regression r =
        Regression.fit(new double[][] {SlowPart.ones(x.length), x}, y, Data.fill(x.length, 1));
    assertThat(r.beta[0]).isCloseTo(-0.262323073774029, within(1e-11));
    assertThat(r.beta[1]).isCloseTo(1.00211681802045, within(1e-13));
    assertThat(r.standardError(0)).isCloseTo(0.232818234301152, within(1e-12));
    assertThat(r.standardError(1)).isCloseTo(0.429796848199937e-3, within(1e-14));
    assertThat(Math.sqrt(r.unitVariance())).isCloseTo(0.884796396144373, within(1e-12));
  }

  /**
   * Asymptotic regression on loblolly pine, seed 329: R's nls prints Asym 94.1282 (8.4030), R0
   * -8.2508 (1.2261), log rate -3.2176 (0.1386), residual 0.7493 on 3 degrees of freedom. Amplitude
   * is R0 - Asym; its standard error 7.49892 and that of the time constant 3.46010 are from SciPy's
   * curve_fit.
   */
  @Test
  void settlingOnLoblolly() {
    double[] t = Data.column("loblolly-329.csv", "age");
    double[] y = Data.column("loblolly-329.csv", "height");
    WarmUp w = WarmUp.fit(t, y, Data.fill(6, 1), new double[][] {SlowPart.ones(6)});
    assertThat(w).isNotNull();
    assertThat(w.amplitude()).isCloseTo(-8.2508 - 94.1282, within(2e-3));
    assertThat(-Math.log(w.minutes())).isCloseTo(-3.2176, within(1e-4));
    assertThat(w.minutesSe() / w.minutes()).isCloseTo(0.1386, within(1e-4));
    assertThat(w.amplitudeSe()).isCloseTo(7.49892, within(2e-3));
    assertThat(w.minutesSe()).isCloseTo(3.46010, within(2e-3));
  }

  /** 30 um with a time constant of 20 minutes: under 3 um after 20 ln 10 = 46 minutes. */
  @Test
  void minutesUntilLittleRemains() {
    WarmUp w = new WarmUp(-0.03, 20, 0, 0, 0, 0);
    assertThat(w.minutesUntil(0.003)).isCloseTo(20 * Math.log(10), within(1e-9));
    assertThat(w.minutesUntil(0.04)).isZero();
  }

  /**
   * Nile: strucchange prints one break after observation 28 (1898); RSS 2835157, 1597457, 1552924,
   * 1538097 and BIC 1318, 1270, 1276, 1285 for 0 to 3 breaks; supF 75.93 with 15 % trimmed.
   */
  @Test
  void breaksOfTheNile() {
    double[] flow = Data.column("nile.csv", "flow");
    List<Segmentation> s = Segmentation.fits(flow, Data.fill(100, 1), 3, 15);
    double[] rss = {2835157, 1597457, 1552924, 1538097};
    double[] bic = {1318, 1270, 1276, 1285};
    for (int k = 0; k < 4; k++) {
      assertThat(s.get(k).rss()).isCloseTo(rss[k], within(0.5));
      assertThat(s.get(k).bic()).isCloseTo(bic[k], within(0.5));
    }
    assertThat(s.get(1).starts()).containsExactly(28);
    double f = (s.get(0).rss() - s.get(1).rss()) / (s.get(1).rss() / 98);
    assertThat(f).isCloseTo(75.93, within(0.005));
    assertThat(SupF.pOf(f, 98, 0.15)).isLessThan(1e-10);
    assertThat(SupF.pOfChiSquare(f, 0.15)).isLessThan(2.3e-15);
  }

  /**
   * Critical values of the supremum for one parameter and 15 % trimmed: 7.12, 8.68, 12.16 at 10, 5
   * and 1 % (Andrews 2003, Econometrica 71, 395, corrected table; from memory).
   */
  @Test
  void supremumAgainstAndrews() {
    assertThat(SupF.pOfChiSquare(7.12, 0.15)).isCloseTo(0.10, within(0.008));
    assertThat(SupF.pOfChiSquare(8.68, 0.15)).isCloseTo(0.05, within(0.003));
    assertThat(SupF.pOfChiSquare(12.16, 0.15)).isCloseTo(0.01, within(0.001));
  }

  /** A long series is broken on a grid, then exactly. */
  @Test
  void longSeriesFindsTheExactPlace() {
    double[] y = new double[1000];
    for (int i = 0; i < y.length; i++) {
      y[i] = (i % 2 == 0 ? 0.5 : -0.5) + (i >= 617 ? 3 : 0);
    }
    List<Segmentation> s = Segmentation.fits(y, Data.fill(1000, 1), 2, 20);
    assertThat(s.get(1).starts()).containsExactly(617);
  }

  /**
   * Thirteen trials, log risk ratios: the R package metafor prints REML tau^2 0.3132, mean -0.7145
   * (SE 0.1798), Q-profile interval 0.1197 to 1.1115.
   */
  @Test
  void varianceBetweenTrials() {
    double[][] v = vaccine();
    ExcessVariance reml = ExcessVariance.reml(v[0], v[1]);
    assertThat(reml.variance()).isCloseTo(0.31324, within(1e-5));
    assertThat(reml.mean()).isCloseTo(-0.7145, within(5e-5));
    assertThat(reml.meanSe()).isCloseTo(0.1798, within(5e-5));
    assertThat(reml.low()).isCloseTo(0.1197, within(5e-5));
    assertThat(reml.high()).isCloseTo(1.1115, within(5e-5));
  }

  private static double[][] vaccine() {
    double[] a = Data.column("bcg-trials.csv", "tpos");
    double[] b = Data.column("bcg-trials.csv", "tneg");
    double[] c = Data.column("bcg-trials.csv", "cpos");
    double[] d = Data.column("bcg-trials.csv", "cneg");
    double[][] v = new double[2][a.length];
    for (int i = 0; i < a.length; i++) {
      v[0][i] = Math.log(a[i] / (a[i] + b[i])) - Math.log(c[i] / (c[i] + d[i]));
      v[1][i] = Math.sqrt(1 / a[i] - 1 / (a[i] + b[i]) + 1 / c[i] - 1 / (c[i] + d[i]));
    }
    return v;
  }

  /** A spread smaller than the standard errors explain is none. */
  @Test
  void noExcessIsZero() {
    double[] y = {0, 0.1, -0.1, 0.05, -0.05};
    assertThat(ExcessVariance.reml(y, Data.fill(5, 1)).variance()).isZero();
  }

  /** R: p.adjust(c(0.01, 0.04, 0.03, 0.005), "holm") is 0.03 0.06 0.06 0.02. */
  @Test
  void holm() {
    double[] p = Holm.adjust(new double[] {0.01, 0.04, 0.03, 0.005});
    assertThat(p).containsExactly(new double[] {0.03, 0.06, 0.06, 0.02}, within(1e-12));
  }

  /** Quantiles printed in any table: 1.959964, t 2.570582 with 5, chi-square 11.0705 with 5. */
  @Test
  void quantiles() {
    assertThat(Tail.normalUpper(0.025)).isCloseTo(1.959964, within(1e-6));
    assertThat(Tail.tTwoSidedQuantile(0.05, 5)).isCloseTo(2.570582, within(1e-6));
    assertThat(Tail.chiSquareQuantile(0.95, 5)).isCloseTo(11.0705, within(1e-4));
    assertThat(Tail.fUpper(4.9646, 1, 10)).isCloseTo(0.05, Percentage.withPercentage(0.01));
  }
}
