package org.padtrue.numeric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.ReferenceData;

/**
 * Priors and moderated variances of invented groups by limma; src/test/r/scatter.R printed the
 * values, with the versions; they agree to 1e-9.
 */
class ScatterPriorReferenceTest {
  private static final double REL_TOL = 1e-9;

  record Groups(double[] s2, double[] d, Map<String, double[]> values) {}

  private static Groups groups(String name) {
    Map<String, TreeMap<Integer, Double>> all = new TreeMap<>();
    for (String[] r : ReferenceData.rows(ScatterPriorReferenceTest.class, "limma-scatter.csv")) {
      if (r[0].equals(name)) {
        all.computeIfAbsent((r[1].equals("0") ? "all " : "") + r[2], x -> new TreeMap<>())
            .put(Integer.parseInt(r[1]), number(r[3]));
      }
    }
    Map<String, double[]> v = new TreeMap<>();
    all.forEach((k, m) -> v.put(k, m.values().stream().mapToDouble(x -> x).toArray()));
    return new Groups(v.get("s2"), v.get("d"), v);
  }

  private static double number(String s) {
    return s.equals("Inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(s);
  }

  private static void same(double expected, double actual, double tol) {
    if (Double.isInfinite(expected)) {
      assertThat(actual).isEqualTo(expected);
    } else {
      assertThat(actual).isCloseTo(expected, within(tol * Math.abs(expected)));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "two",
        "three",
        "alike",
        "equal12",
        "unequal12",
        "nought12",
        "odd12",
        "unequal60",
        "odd60",
        "odd60alike",
        "oddInEqual",
        "many"
      })
  void agreesWithLimma(String name) {
    Groups g = groups(name);
    ScatterPrior p = ScatterPrior.ofMoments(g.s2, g.d);
    same(g.values.get("all scale")[0], p.scale(), REL_TOL);
    same(g.values.get("all df")[0], p.df(), REL_TOL);
    double[] moderated = p.variances(g.s2, g.d);
    assertThat(moderated).hasSizeGreaterThan(1);
    for (int k = 0; k < moderated.length; k++) {
      same(g.values.get("moderated")[k], moderated[k], REL_TOL);
    }
  }

  /** limma 3.54.1, trigammaInverse; Commons Math has trigamma to 3e-12. */
  @ParameterizedTest
  @CsvSource({
    "1e-08,100000000",
    "0.0001,10000.49999166666",
    "0.02,50.49833345551547",
    "0.5,2.459952948352307",
    "3,0.6754781052813701",
    "40,0.1608055975030352",
    "100000,0.003162303549482226",
    "1e+09,3.16227766016838e-05"
  })
  void trigammaInverse(double x, double y) {
    same(y, ScatterPrior.trigammaInverse(x), 1e-11);
  }

  @Test
  void oneGroupHasNoPrior() {
    ScatterPrior p = ScatterPrior.ofMoments(new double[] {4, Double.NaN}, new double[] {3, 0});
    assertThat(p.scale()).isEqualTo(4);
    assertThat(p.df()).isZero();
    assertThat(p.variances(new double[] {4, 0}, new double[] {3, 0})).containsExactly(4, 4);
    assertThat(p.degreesOfFreedom(new double[] {3, 0})).containsExactly(3, 0);
    assertThat(ScatterPrior.ofMoments(new double[] {1}, new double[] {0}).scale()).isNaN();
  }

  @Test
  void nonsenseIsRefused() {
    assertThatThrownBy(() -> ScatterPrior.ofMoments(new double[] {1, 2}, new double[] {1}))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> ScatterPrior.ofMoments(new double[] {1, -2}, new double[] {1, 3}))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> ScatterPrior.ofMoments(new double[] {1, 2}, new double[] {1, -3}))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
