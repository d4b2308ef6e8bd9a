package org.padtrue.drift.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.ToIntFunction;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.drift.Data;

/**
 * Validation: run lengths against published tables, computed and simulated on the charts
 * themselves.
 */
class RunLengthValidationTest {
  private static final int RUNS = 4000;

  /** Geometric run lengths: a mean of RUNS has a standard error of 1.6 %; three of them. */
  private static final Percentage SIMULATED = Percentage.withPercentage(4.8);

  /** Three-sigma limits: 370.4 (any text on control charts). */
  @Test
  void individualsRunFor370PointsInControl() {
    assertThat(RunLength.individuals(3, 0)).isCloseTo(370.4, within(0.05));
    double simulated = simulate(z -> firstBeyond(z, 3), 0, 6000, 1);
    assertThat(simulated).isCloseTo(370.4, SIMULATED);
  }

  /** Champ and Woodall (1987), Technometrics 29, 393: the four Western Electric rules, 91.75. */
  @Test
  void westernElectricRulesRunFor92Points() {
    double simulated = simulate(z -> first(RunRules.westernElectric(z)), 0, 1500, 2);
    assertThat(simulated).isCloseTo(91.75, SIMULATED);
  }

  /**
   * Two-sided CUSUM with k 0.5, as printed in Montgomery, Introduction to Statistical Quality
   * Control: h 4: 168, 74.2, 26.6, 13.3, 8.38, 4.75, 3.34, 2.19; h 5: 465, 139, 38.0, 17.0, 10.4,
   * 5.75, 4.01, 2.57. One value (139) is 139.5 when computed; hence half a percent.
   */
  @ParameterizedTest
  @CsvSource({
    "4,0,168", "4,0.25,74.2", "4,0.5,26.6", "4,0.75,13.3", "4,1,8.38", "4,1.5,4.75", "4,2,3.34",
    "4,3,2.19", "5,0,465", "5,0.25,139", "5,0.5,38.0", "5,0.75,17.0", "5,1,10.4", "5,1.5,5.75",
    "5,2,4.01", "5,3,2.57"
  })
  void cusumTable(double h, double shift, double printed) {
    assertThat(RunLength.cusum(0.5, h, shift)).isCloseTo(printed, Percentage.withPercentage(0.5));
  }

  /** The same table by running our own CUSUM on random numbers. */
  @ParameterizedTest
  @CsvSource({"4,0,168", "4,1,8.38", "5,0,465", "5,0.5,38.0", "5,1,10.4"})
  void cusumSimulated(double h, double shift, double printed) {
    double[] one = Data.fill(8000, 1);
    double simulated =
        simulate(
            z -> {
              double[] sigma = z.length == one.length ? one : Data.fill(z.length, 1);
              CusumChart c = CusumChart.of(z, sigma, 0, 0.5, h);
              return Math.min(firstOut(c.up()), firstOut(c.down()));
            },
            shift,
            shift == 0 ? 6000 : 600,
            3);
    assertThat(simulated).isCloseTo(printed, SIMULATED);
  }

  /**
   * EWMA: Crowder (1987) by the printed example of a public manual of the EWMAARL function, shift
   * 1, weight 0.25, limit 3: 11.154267016; and in control 500 for the pairs of Lucas and Saccucci
   * (1990), Technometrics 32, 1 (from memory): (0.4, 3.054), (0.25, 2.998), (0.2, 2.962), (0.1,
   * 2.814), (0.05, 2.615), limits printed to 3 digits.
   */
  @Test
  void ewmaAgainstPublishedValues() {
    assertThat(RunLength.ewma(0.25, 3, 1)).isCloseTo(11.154267016, within(1e-6));
    double[][] pairs = {{0.4, 3.054}, {0.25, 2.998}, {0.2, 2.962}, {0.1, 2.814}, {0.05, 2.615}};
    for (double[] p : pairs) {
      assertThat(RunLength.ewma(p[0], p[1], 0)).isCloseTo(500, Percentage.withPercentage(1));
    }
  }

  /** The closed form used to set limits stays within 6 % of the Markov chain where it is used. */
  @Test
  void siegmundIsCloseToTheMarkovChain() {
    for (double h : new double[] {5, 8, 12}) {
      for (double shift : new double[] {-0.2, 0, 0.2, 0.4}) {
        assertThat(RunLength.cusumSiegmund(0.5, h, shift))
            .isCloseTo(RunLength.cusumOneSided(0.5, h, shift), Percentage.withPercentage(6));
      }
    }
  }

  /**
   * Limits for a base of 25: with centre and spread estimated from 25 points, each chart calls
   * falsely within 100 points in no more than 5 % of histories, and not in far fewer.
   */
  @Test
  void limitsHoldTheirFalseAlarmsWithAnEstimatedBase() {
    int n = 100;
    ChartLimits l = ChartLimits.of(0.05, n, 25, 0.2, 0.5);
    Random random = new Random(11);
    int histories = 3000;
    int[] calls = new int[3];
    double[] exact = new double[n];
    for (int r = 0; r < histories; r++) {
      double[] x = random.doubles(n, 0, 1).map(u -> random.nextGaussian()).toArray();
      BaseEstimate b = BaseEstimate.of(x, exact, 0, 25);
      double[] sigma = Data.fill(n, b.sigma(0));
      calls[0] += IndividualsChart.of(x, exact, b, l.individuals()).signals() ? 1 : 0;
      calls[1] += EwmaChart.of(x, sigma, b.centre(), 0.2, l.ewma()).signals() ? 1 : 0;
      CusumChart c = CusumChart.of(x, sigma, b.centre(), 0.5, l.cusum());
      calls[2] += c.up().signals() || c.down().signals() ? 1 : 0;
    }
    System.out.printf(
        "false alarms wanted 0.050, base 25 of 100: individuals %.3f, EWMA %.3f, CUSUM %.3f"
            + " (standard error 0.004); limits %.2f, %.2f, %.2f%n",
        calls[0] / (double) histories,
        calls[1] / (double) histories,
        calls[2] / (double) histories,
        l.individuals(),
        l.ewma(),
        l.cusum());
    for (int c : calls) {
      assertThat(c / (double) histories).isBetween(0.015, 0.062);
    }
  }

  private static double simulate(
      ToIntFunction<double[]> chart, double shift, int length, int seed) {
    Random random = new Random(seed);
    double sum = 0;
    for (int r = 0; r < RUNS; r++) {
      double[] z = new double[length];
      // grown only as far as needed: most runs are short
      int made = 0;
      int call = -1;
      int upTo = Math.min(length, 64);
      while (call < 0) {
        while (made < upTo) {
          z[made++] = shift + random.nextGaussian();
        }
        int first = chart.applyAsInt(java.util.Arrays.copyOf(z, made));
        if (first < made || made == length) {
          call = Math.min(first, length);
        }
        upTo = Math.min(length, 4 * upTo);
      }
      sum += call + 1;
    }
    return sum / RUNS;
  }

  private static int firstBeyond(double[] z, double limit) {
    int i = 0;
    while (i < z.length && Math.abs(z[i]) <= limit) {
      i++;
    }
    return i;
  }

  private static int first(boolean[] hits) {
    int i = 0;
    while (i < hits.length && !hits[i]) {
      i++;
    }
    return i;
  }

  private static int firstOut(ControlChart c) {
    int i = 0;
    while (i < c.points().size() && !c.points().get(i).out()) {
      i++;
    }
    return i;
  }
}
