package org.padtrue.drift.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.drift.Data;

/**
 * Validation: charts against worked examples of the NIST/SEMATECH e-Handbook and printed tables.
 */
class ControlChartsValidationTest {
  private static final Offset<Double> PRINTED_4 = within(0.5e-4);
  private static final Offset<Double> PRINTED_2 = within(0.0051);

  /** The handbook rounds d2 to 1.128 and D4 to 3.267; full digits move its limits by 0.002. */
  private static final Offset<Double> ROUNDED_CONSTANTS = within(0.002);

  /** ISO 7870-2 and e-Handbook 6.3.2.1 print these to 3 or 4 digits. */
  @ParameterizedTest
  @CsvSource({
    "2,0.797885,2.6587,0,3.2665,1.128379,0.852502,1.8800,0,3.2665",
    "3,0.886227,1.9544,0,2.5682,1.692569,0.888368,1.0233,0,2.5746",
    "4,0.921318,1.6281,0,2.2660,2.058751,0.879808,0.7286,0,2.2821",
    "5,0.939986,1.4273,0,2.0890,2.325929,0.864082,0.5768,0,2.1145",
    "6,0.951533,1.2871,0.0304,1.9696,2.534413,0.848040,0.4832,0,2.0038",
    "7,0.959369,1.1819,0.1177,1.8823,2.704357,0.833205,0.4193,0.0757,1.9243",
    "8,0.965030,1.0991,0.1851,1.8149,2.847201,0.819831,0.3725,0.1362,1.8638",
    "9,0.969311,1.0317,0.2391,1.7609,2.970026,0.807834,0.3367,0.1840,1.8160",
    "10,0.972659,0.9754,0.2837,1.7163,3.077505,0.797051,0.3083,0.2230,1.7770"
  })
  void constantsOfShewhartCharts(
      int n,
      double c4,
      double a3,
      double b3,
      double b4,
      double d2,
      double d3,
      double a2,
      double lowerD3,
      double upperD4) {
    ControlConstants c = ControlConstants.of(n);
    assertThat(c.c4()).isCloseTo(c4, within(1e-6));
    assertThat(c.d2()).isCloseTo(d2, within(1e-6));
    assertThat(c.d3()).isCloseTo(d3, within(1e-6));
    assertThat(3 / (c.d2() * Math.sqrt(n))).isCloseTo(a2, PRINTED_4);
    assertThat(3 / (c.c4() * Math.sqrt(n))).isCloseTo(a3, PRINTED_4);
    double spread = 3 * Math.sqrt(1 - c.c4() * c.c4()) / c.c4();
    assertThat(Math.max(0, 1 - spread)).isCloseTo(b3, PRINTED_4);
    assertThat(1 + spread).isCloseTo(b4, PRINTED_4);
    assertThat(Math.max(0, 1 - 3 * c.d3() / c.d2())).isCloseTo(lowerD3, PRINTED_4);
    assertThat(1 + 3 * c.d3() / c.d2()).isCloseTo(upperD4, PRINTED_4);
  }

  /** e-Handbook 6.3.2.2: mean 50.81, mean range 1.8778, limits 55.8041 and 45.8159, no signal. */
  @Test
  void individualsOfHandbook() {
    double[] x = Data.column("handbook-individuals-6322.csv", "x");
    double[] exact = new double[x.length];
    BaseEstimate base = BaseEstimate.of(x, exact, 0, x.length);
    assertThat(base.centre()).isCloseTo(50.81, within(1e-10));
    assertThat(base.processSd() * 1.128379167).isCloseTo(1.8778, PRINTED_4);
    ControlChart c = IndividualsChart.of(x, exact, base, 3);
    assertThat(c.points().get(0).upper()).isCloseTo(55.8041, ROUNDED_CONSTANTS);
    assertThat(c.points().get(0).lower()).isCloseTo(45.8159, ROUNDED_CONSTANTS);
    assertThat(c.signals()).isFalse();
  }

  /** The same data: moving ranges 2.0 2.3 1.4 ..., upper limit 6.1347. */
  @Test
  void movingRangesOfHandbook() {
    double[] x = Data.column("handbook-individuals-6322.csv", "x");
    double[] exact = new double[x.length];
    ControlChart c =
        IndividualsChart.movingRanges(x, exact, BaseEstimate.of(x, exact, 0, x.length), 3);
    double[] printed = {2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5};
    for (int i = 0; i < printed.length; i++) {
      assertThat(c.points().get(i).value()).isCloseTo(printed[i], within(1e-9));
    }
    assertThat(c.points().get(0).upper()).isCloseTo(6.1347, ROUNDED_CONSTANTS);
    assertThat(c.signals()).isFalse();
  }

  /**
   * e-Handbook 6.3.2.4: lambda 0.3, centre 50, s 2.0539. Printed averages to 2 digits; its limits
   * 52.5884 and 47.4115 are the steady state, which ours reach; exact ones at the start are from
   * the same formula with the factor 1 - (1 - lambda)^2t.
   */
  @Test
  void ewmaOfHandbook() {
    double[] x = Data.column("handbook-ewma-6324.csv", "x");
    double[] printed = Data.column("handbook-ewma-6324.csv", "ewma_printed_2dp");
    ControlChart c = EwmaChart.of(x, Data.fill(x.length, 2.0539), 50, 0.3, 3);
    for (int i = 0; i < x.length; i++) {
      assertThat(c.points().get(i).value()).isCloseTo(printed[i], PRINTED_2);
    }
    assertThat(c.points().get(19).upper()).isCloseTo(52.5884, within(1e-4));
    assertThat(c.points().get(19).lower()).isCloseTo(47.41157, within(1e-4));
    assertThat(c.points().get(0).upper()).isCloseTo(51.84851, within(1e-5));
    assertThat(c.points().get(4).upper()).isCloseTo(52.55161, within(1e-5));
    assertThat(c.signals()).isFalse();
  }

  /** e-Handbook 6.3.2.3: target 325, sigma of means 0.635, k 0.3175, h 4.1959; signals 14 to 20. */
  @Test
  void cusumOfHandbook() {
    double[] x = Data.column("handbook-cusum-6323.csv", "mean_of_4");
    double[] up = Data.column("handbook-cusum-6323.csv", "S_hi_printed_2dp");
    double[] down = Data.column("handbook-cusum-6323.csv", "S_lo_printed_2dp");
    CusumChart c = CusumChart.of(x, Data.fill(x.length, 0.635), 325, 0.5, 4.1959 / 0.635);
    for (int i = 0; i < x.length; i++) {
      assertThat(0.635 * c.up().points().get(i).value()).isCloseTo(up[i], PRINTED_2);
      assertThat(0.635 * c.down().points().get(i).value()).isCloseTo(down[i], PRINTED_2);
      assertThat(c.up().points().get(i).out()).isEqualTo(i >= 13);
    }
    assertThat(0.635 * c.up().points().get(12).value()).isCloseTo(3.0075, within(1e-9));
    assertThat(0.635 * c.up().points().get(19).value()).isCloseTo(19.035, within(1e-9));
    assertThat(c.up().starts()).hasSize(1);
    assertThat(CusumChart.climbStart(c.up(), 13)).isEqualTo(12);
  }

  /** Nelson (1984): each rule on the shortest run that completes it, and on one point less. */
  @Test
  void nelsonRulesCallAtTheLastPointOfTheirRun() {
    assertRule(1, 0, 3.1);
    assertRule(2, 8, .1, .2, .1, .2, .1, .2, .1, .2, .1);
    assertRule(3, 5, -2, -1, -.5, 0, .5, 1);
    assertRule(4, 13, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1);
    assertRule(5, 2, 2.1, 0, 2.1);
    assertRule(6, 4, 1.1, 1.1, 0, 1.1, 1.1);
    assertRule(7, 14, .5, -.5, -.4, .3, .2, .6, -.2, .1, -.9, .9, .5, .4, -.3, -.2, .7);
    assertRule(8, 7, 1.1, -1.1, 1.2, -1.2, 1.3, 1.1, -1.4, -1.1);
  }

  private static void assertRule(int rule, int index, double... z) {
    assertThat(RunRules.nelson(z))
        .filteredOn(h -> h.rule() == rule)
        .extracting(RunRules.Hit::index)
        .containsExactly(index);
    double[] shorter = java.util.Arrays.copyOf(z, z.length - 1);
    assertThat(RunRules.nelson(shorter)).noneMatch(h -> h.rule() == rule);
  }

  /** A point with a large own error moves no chart; the same value with a small one does. */
  @Test
  void anArticleOfTwentyPlacementsDoesNotAlarmLikeOneOfFourHundred() {
    double[] x = Data.fill(31, 0);
    double[] se = Data.fill(31, 1);
    for (int i = 0; i < 30; i++) {
      x[i] = i % 2 == 0 ? 0.9 : -0.9;
    }
    x[30] = 6;
    BaseEstimate base = BaseEstimate.of(x, se, 0, 30);
    assertThat(IndividualsChart.of(x, se, base, 3).signals()).isTrue();
    double[] unsure = se.clone();
    unsure[30] = Math.sqrt(20);
    assertThat(IndividualsChart.of(x, unsure, base, 3).signals()).isFalse();
    double[] sigma = unsure.clone();
    ControlChart e = EwmaChart.of(x, sigma, 0, 0.2, 3);
    ControlChart sure = EwmaChart.of(x, se, 0, 0.2, 3);
    assertThat(Math.abs(e.points().get(30).value()))
        .isLessThan(0.25 * Math.abs(sure.points().get(30).value()));
  }
}
