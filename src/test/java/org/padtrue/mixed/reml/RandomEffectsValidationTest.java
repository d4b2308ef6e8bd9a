package org.padtrue.mixed.reml;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.padtrue.ReferenceData;

/**
 * Validation of the mixed-model engine against published fits.
 *
 * <p>Values: lme4 reference pages (Dyestuff, Dyestuff2, Penicillin, Pastes) and MixedModels.jl
 * test/pls.jl; further digits computed from the same published data by a general statistics
 * package. Data: Davies and Goldsmith (1972), Box and Tiao (1973).
 */
class RandomEffectsValidationTest {
  private static final double SD_REL_TOL = 2e-6;
  private static final double CRITERION_TOL = 2e-6;

  static RandomEffects intercept(String file, int response, int... factors) {
    List<String[]> rows = ReferenceData.rows(RandomEffectsValidationTest.class, file);
    List<Map<String, Integer>> levels = new ArrayList<>();
    int q = 0;
    for (int f : factors) {
      Map<String, Integer> m = new TreeMap<>();
      rows.forEach(r -> m.put(r[f], 0));
      for (String k : m.keySet()) {
        m.put(k, q++);
      }
      levels.add(m);
    }
    CrossProducts cp = new CrossProducts(1, q);
    // Normal equations want centred responses; callers of the engine do the same.
    double base = Double.parseDouble(rows.get(0)[response]);
    int[] thetaOf = new int[q];
    for (int f = 0; f < factors.length; f++) {
      for (int j : levels.get(f).values()) {
        thetaOf[j] = f;
      }
    }
    int[] zi = new int[factors.length];
    double[] zv = new double[factors.length];
    java.util.Arrays.fill(zv, 1);
    for (String[] r : rows) {
      for (int f = 0; f < factors.length; f++) {
        zi[f] = levels.get(f).get(r[factors[f]]);
      }
      cp.add(
          new int[] {0},
          new double[] {1},
          1,
          zi,
          zv,
          factors.length,
          Double.parseDouble(r[response]) - base,
          1);
    }
    return new RandomEffects(cp, thetaOf, thetaOf, factors.length);
  }

  private static void assertRelative(double expected, double actual, double tol) {
    assertEquals(expected, actual, Math.abs(expected) * tol);
  }

  /** Dyestuff, REML: lme4 docs/reference/Dyestuff.html and MixedModels.jl test/pls.jl. */
  @Test
  void dyestuffReml() {
    RandomEffectsFit f = intercept("lme4-dyestuff.csv", 1, 0).fit(Estimation.REML);
    assertRelative(42.000595, f.sd(0), SD_REL_TOL);
    assertRelative(49.510100, f.residualSd(), SD_REL_TOL);
    assertEquals(1527.5, 1545 + f.fixed()[0], 1e-9);
    assertRelative(19.38341, meanSe(f), SD_REL_TOL);
    assertEquals(319.6542768, f.deviance(), CRITERION_TOL);
    // Balanced one-way closed form: BLUP = shrink factor 0.782527 times (batch mean - mean).
    double[] means = {1505, 1528, 1564, 1498, 1600, 1470};
    for (int i = 0; i < 6; i++) {
      assertEquals(0.782527 * (means[i] - 1527.5), f.random()[i], 1e-4);
    }
  }

  /** Dyestuff, ML: MixedModels.jl test/pls.jl. */
  @Test
  void dyestuffMl() {
    RandomEffectsFit f = intercept("lme4-dyestuff.csv", 1, 0).fit(Estimation.ML);
    assertEquals(327.3270599, f.deviance(), CRITERION_TOL);
    assertRelative(0.7525807, f.theta()[0], 1e-6);
    assertRelative(37.2603437, f.sd(0), SD_REL_TOL);
    assertRelative(49.5101004, f.residualSd(), SD_REL_TOL);
    assertRelative(17.6945529, meanSe(f), SD_REL_TOL);
  }

  /** Dyestuff2: the variance between batches is estimated as exactly 0 (lme4 Dyestuff2 page). */
  @Test
  void dyestuff2IsOnTheBoundary() {
    RandomEffectsFit f = intercept("lme4-dyestuff2.csv", 1, 0).fit(Estimation.REML);
    assertEquals(0, f.theta()[0], 0);
    assertRelative(3.7156843, f.residualSd(), SD_REL_TOL);
    assertEquals(161.8283, f.deviance(), 5e-5);
    assertEquals(
        162.8730367,
        intercept("lme4-dyestuff2.csv", 1, 0).fit(Estimation.ML).deviance(),
        CRITERION_TOL);
  }

  /** Penicillin: two crossed factors (lme4 Penicillin page). */
  @Test
  void penicillinCrossed() {
    RandomEffectsFit f = intercept("lme4-penicillin.csv", 0, 1, 2).fit(Estimation.REML);
    assertRelative(0.8467043, f.sd(0), SD_REL_TOL);
    assertRelative(1.9315584, f.sd(1), SD_REL_TOL);
    assertRelative(0.5499231, f.residualSd(), SD_REL_TOL);
    assertEquals(22.9722222, 27 + f.fixed()[0], 1e-7);
    assertRelative(0.8085734, meanSe(f), SD_REL_TOL);
    assertEquals(330.8605890, f.deviance(), CRITERION_TOL);
  }

  /** Pastes: casks nested in batches (lme4 Pastes page). */
  @Test
  void pastesNested() {
    RandomEffectsFit f = intercept("lme4-pastes.csv", 0, 3, 1).fit(Estimation.REML);
    assertRelative(2.9040776, f.sd(0), SD_REL_TOL);
    assertRelative(1.2873650, f.sd(1), 1e-5);
    assertRelative(0.8234076, f.residualSd(), SD_REL_TOL);
    assertEquals(60.0533333, 62.8 + f.fixed()[0], 1e-7);
    assertRelative(0.6768701, meanSe(f), SD_REL_TOL);
    assertEquals(246.9907459, f.deviance(), CRITERION_TOL);
  }

  /** NIST StRD SiRstv: balanced, so REML gives (MSB - MSW) / 5 between instruments. */
  @Test
  void sirstvMatchesCertifiedMeanSquares() {
    RandomEffectsFit f = intercept("nist-strd-anova-sirstv.csv", 1, 0).fit(Estimation.REML);
    assertRelative(1.04076068334656e-1, f.residualSd(), 1e-6);
    double msb = 5.11462616e-2 / 4;
    double msw = 2.1663656e-1 / 20;
    assertRelative(Math.sqrt((msb - msw) / 5), f.sd(0), 1e-5);
  }

  /** NIST StRD AtmWtAg: 24 repeats at 2 levels, stiff data of about 107.868. */
  @Test
  void atmWtAgMatchesCertifiedMeanSquares() {
    RandomEffectsFit f = intercept("nist-strd-anova-atmwtag.csv", 1, 0).fit(Estimation.REML);
    double msb = 3.638341875e-9;
    double msw = 1.04951729166667e-8 / 46;
    assertRelative(Math.sqrt(msw), f.residualSd(), 1e-4);
    assertRelative(Math.sqrt((msb - msw) / 24), f.sd(0), 1e-3);
  }

  /** NIST StRD SmLs01: 9 treatments, 21 repeats; mean squares exactly 0.21 and 0.01. */
  @Test
  void smls01MatchesCertifiedMeanSquares() {
    RandomEffectsFit f = intercept("nist-strd-anova-smls01.csv", 1, 0).fit(Estimation.REML);
    assertRelative(0.1, f.residualSd(), SD_REL_TOL);
    assertRelative(Math.sqrt((0.21 - 0.01) / 21), f.sd(0), SD_REL_TOL);
  }

  private static double meanSe(RandomEffectsFit f) {
    int k = f.random().length;
    return Math.sqrt(f.covariance(k, k));
  }
}
