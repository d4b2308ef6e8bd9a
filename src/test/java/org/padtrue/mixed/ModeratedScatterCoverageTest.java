package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.random.MersenneTwister;
import org.apache.commons.math3.random.RandomGenerator;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.numeric.Tails;

/**
 * How often the 95 % t interval of a group holds a new residual of that group, by simulation; the
 * chance of holding it is reckoned exactly given the interval. A table in full (1, 2, 3, 6, 12
 * groups; 1 to 40 degrees of freedom and mixed; half an hour), a few cells otherwise. Width is that
 * of the interval, over that of pooling all groups.
 *
 * <p>What no method can do: of a group with one or two degrees of freedom the data hardly say that
 * it is odd, so whoever leans on others at all holds less than 95 % there. Measured for one group
 * of four times the SD (120 runs): 74 to 91 % with 1 or 2 degrees of freedom of its own, 88 to 91 %
 * with 4, 93 to 94 % with 10, 94 to 95 % from 20 on; the mean over groups is 93 to 96 % in all.
 */
class ModeratedScatterCoverageTest {
  private static final boolean FULL = Study.FULL;
  private static final int RUNS = Study.runs("runs", 25, 200);
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
  private static final double[] MIXED = {1, 2, 4, 10, 40};

  private enum Kind {
    EQUAL("equal"),
    TWO("SD 1 and 2 by turns"),
    FOUR("SD 1 and 4 by turns"),
    ODD("one of SD 4"),
    SMALL("one of SD 1/4"),
    BELIEF("drawn as believed");

    final String words;

    Kind(String words) {
      this.words = words;
    }
  }

  /** Coverage and its standard error, of the first group (the odd one), mean log width. */
  private record Cell(double mean, double se, double first, double firstSe, double width) {}

  private static double[] sds(RandomGenerator g, Kind kind, int n) {
    double[] s = new double[n];
    double tau;
    do {
      tau = ModeratedScatter.SPREAD * Math.tan(0.5 * Math.PI * g.nextDouble());
    } while (tau > 2.5 || tau < 0.005);
    double d0 = ScatterAverage.degreesOfFreedom(tau);
    double median = Tails.chiSquareQuantile(0.5, 1);
    for (int k = 0; k < n; k++) {
      s[k] =
          switch (kind) {
            case EQUAL -> 1;
            case TWO -> k % 2 == 0 ? 2 : 1;
            case FOUR -> k % 2 == 0 ? 4 : 1;
            case ODD -> k == 0 ? 4 : 1;
            case SMALL -> k == 0 ? 0.25 : 1;
            case BELIEF ->
                g.nextDouble() < ModeratedScatter.ODD
                    ? Math.sqrt(median / new GammaDistribution(g, 0.5, 2).sample())
                    : Math.sqrt(d0 / new GammaDistribution(g, 0.5 * d0, 2).sample());
          };
    }
    return s;
  }

  private static Cell cell(RandomGenerator g, Kind kind, int n, double[] dfs) {
    double sum = 0;
    double square = 0;
    double first = 0;
    double firstSquare = 0;
    double width = 0;
    for (int r = 0; r < RUNS; r++) {
      double[] s = sds(g, kind, n);
      double[] s2 = new double[n];
      double[] d = new double[n];
      int shift = g.nextInt(dfs.length);
      double all = 0;
      double pooled = 0;
      for (int k = 0; k < n; k++) {
        d[k] = dfs[(k + shift) % dfs.length];
        s2[k] = s[k] * s[k] * new GammaDistribution(g, 0.5 * d[k], 2 / d[k]).sample();
        all += d[k];
        pooled += d[k] * s2[k];
      }
      ModeratedScatter m = ModeratedScatter.of(s2, d);
      double plain = Math.sqrt(pooled / all) * Tails.t(0.95, all);
      double run = 0;
      for (int k = 0; k < n; k++) {
        double h = Math.sqrt(m.variance()[k]) * Tails.t(0.95, m.df()[k]);
        double p = 1 - 2 * NORMAL.cumulativeProbability(-h / s[k]);
        run += p / n;
        width += Math.log(h / plain) / n / RUNS;
        first += k == 0 ? p / RUNS : 0;
        firstSquare += k == 0 ? p * p / RUNS : 0;
      }
      sum += run / RUNS;
      square += run * run / RUNS;
    }
    return new Cell(
        sum,
        Math.sqrt((square - sum * sum) / RUNS),
        first,
        Math.sqrt((firstSquare - first * first) / RUNS),
        Math.exp(width));
  }

  @Test
  void holdsWhatItPromises() {
    RandomGenerator g = new MersenneTwister(Integer.getInteger("padtrue.seed", 20260312));
    int[] groups = FULL ? new int[] {1, 2, 3, 6, 12} : new int[] {2, 6};
    double[][] dfs =
        FULL
            ? new double[][] {{1}, {2}, {4}, {10}, {20}, {40}, MIXED}
            : new double[][] {{10}, MIXED};
    System.out.printf(
        "%-20s %6s %-10s %9s %7s %14s %9s %7s%n",
        "true", "groups", "df", "coverage", "SE", "width / pooled", "odd group", "SE");
    for (Kind kind : Kind.values()) {
      for (int n : groups) {
        for (double[] df : dfs) {
          Cell c = cell(g, kind, n, df);
          String d = df.length > 1 ? "1 to 40" : String.valueOf((int) df[0]);
          System.out.printf(
              "%-20s %6d %-10s %9.3f %7.3f %14.2f %9.3f %7.3f%n",
              kind.words, n, d, c.mean, c.se, c.width, c.first, c.firstSe);
          String what = kind + " " + n + " " + Arrays.toString(df);
          boolean few = df[0] < 4;
          // Three standard errors of the simulation beside the bound.
          assertThat(c.mean).as(what).isBetween(0.93 - 3 * c.se, 0.97 + 3 * c.se);
          if (!few) {
            assertThat(c.first)
                .as("first of " + what)
                .isGreaterThan((df[0] < 10 ? 0.85 : df[0] < 20 ? 0.92 : 0.93) - 3 * c.firstSe);
          }
          if (kind == Kind.EQUAL) {
            assertThat(c.width).as("width " + what).isLessThan(few ? 1.3 : 1.1);
          }
          if (kind == Kind.BELIEF) {
            assertThat(c.mean).as(what).isBetween(0.95 - 3.5 * c.se, 0.95 + 3.5 * c.se);
          }
        }
      }
    }
  }
}
