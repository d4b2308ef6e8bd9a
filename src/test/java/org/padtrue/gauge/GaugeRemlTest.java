package org.padtrue.gauge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Validation against published fits: documentation of lme4 (Dyestuff, Penicillin, Pastes; data of
 * Davies and Goldsmith 1972, and Box and Tiao 1973), further digits recomputed for the reference
 * tables. The optimum is flat, so standard deviations agree less closely than the criterion.
 */
class GaugeRemlTest {
  private static final double SD_RELATIVE_TOL = 1e-6;
  private static final double CRITERION_TOL = 1e-6;

  @Test
  void dyestuffOneFactor() {
    GaugeReml.Fit f = fit("lme4-dyestuff.csv", "yield", new String[] {"batch"});
    assertThat(f.sd()[0]).isCloseTo(42.000595, within(42 * SD_RELATIVE_TOL));
    assertThat(f.residualSd()).isCloseTo(49.510100, within(49 * SD_RELATIVE_TOL));
    assertThat(f.criterion()).isCloseTo(319.6542768, within(CRITERION_TOL));
  }

  /** Batches vary less than chance would have them: the variance is exactly 0. */
  @Test
  void dyestuff2AtTheBoundary() {
    GaugeReml.Fit f = fit("lme4-dyestuff2.csv", "yield", new String[] {"batch"});
    assertThat(f.sd()[0]).isZero();
    assertThat(f.residualSd()).isCloseTo(3.7156843, within(1e-7));
    assertThat(f.criterion()).isCloseTo(161.8283, within(1e-4));
  }

  @Test
  void penicillinCrossed() {
    GaugeReml.Fit f =
        fit("lme4-penicillin.csv", "diameter", new String[] {"plate"}, new String[] {"sample"});
    assertThat(f.sd()[0]).isCloseTo(0.8467043, within(1e-6));
    assertThat(f.sd()[1]).isCloseTo(1.9315584, within(2e-6));
    assertThat(f.residualSd()).isCloseTo(0.5499231, within(1e-6));
    assertThat(f.criterion()).isCloseTo(330.8605890, within(CRITERION_TOL));
  }

  @Test
  void pastesNested() {
    GaugeReml.Fit f =
        fit("lme4-pastes.csv", "strength", new String[] {"batch"}, new String[] {"batch", "cask"});
    assertThat(f.sd()[0]).isCloseTo(1.2873650, within(3e-6));
    assertThat(f.sd()[1]).isCloseTo(2.9040776, within(3e-6));
    assertThat(f.residualSd()).isCloseTo(0.8234076, within(1e-6));
    assertThat(f.criterion()).isCloseTo(246.9907459, within(CRITERION_TOL));
  }

  /** Scale and origin of the readings do not matter: micrometres about 1e5 for millimetres. */
  @Test
  void doesNotDependOnUnitOrOrigin() {
    List<Map<String, String>> rows = GaugeData.rows("lme4-penicillin.csv");
    double[] y = GaugeData.values(rows, "diameter");
    double[] z = new double[y.length];
    for (int i = 0; i < y.length; i++) {
      z[i] = 1e5 + 1e-3 * y[i];
    }
    List<int[]> levels = List.of(GaugeData.levels(rows, "plate"), GaugeData.levels(rows, "sample"));
    GaugeReml.Fit a = GaugeReml.fit(y, ones(y.length), levels);
    GaugeReml.Fit b = GaugeReml.fit(z, ones(y.length), levels);
    // 1e5 with steps of 1e-3 leaves seven digits in a double
    assertThat(b.sd()[1] * 1e3).isCloseTo(a.sd()[1], within(1e-5));
    assertThat(b.residualSd() * 1e3).isCloseTo(a.residualSd(), within(1e-5));
  }

  private static GaugeReml.Fit fit(String resource, String response, String[]... factors) {
    List<Map<String, String>> rows = GaugeData.rows(resource);
    double[] y = GaugeData.values(rows, response);
    return GaugeReml.fit(
        y, ones(y.length), List.of(factors).stream().map(f -> GaugeData.levels(rows, f)).toList());
  }

  private static double[][] ones(int n) {
    double[][] x = new double[n][1];
    for (double[] r : x) {
      r[0] = 1;
    }
    return x;
  }
}
