package org.padtrue.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.ReferenceData;

/**
 * Validation against certified values: NIST/ITL Statistical Reference Datasets, linear regression
 * (Norris, Pontius, Longley, Filip, Wampler1) and one-way analysis of variance (SiRstv, SmLs01,
 * AtmWtAg), and an ordinary fit of the stack loss data.
 *
 * <p>Digits are -log10 of the largest relative error of the coefficients (of the standard errors).
 */
class LeastSquaresValidationTest {
  /** What the project promises for Norris, Longley and Wampler1. */
  private static final double DIGITS = 9;

  /** Column with the ones first, then the powers of x. */
  private static double[][] powers(double[] x, int degree) {
    double[][] d = new double[x.length][degree + 1];
    for (int i = 0; i < x.length; i++) {
      for (int j = 0; j <= degree; j++) {
        d[i][j] = Math.pow(x[i], j);
      }
    }
    return d;
  }

  private static LeastSquares polynomial(String set, int degree) {
    List<String[]> r = rows("nist-strd-" + set + ".csv");
    return LeastSquares.fit(powers(ReferenceData.column(r, 1), degree), ReferenceData.column(r, 0));
  }

  private static List<String[]> rows(String file) {
    return ReferenceData.rows(LeastSquaresValidationTest.class, file);
  }

  static double digits(double[] certified, double[] found) {
    assertEquals(certified.length, found.length);
    double worst = 16;
    for (int i = 0; i < found.length; i++) {
      double e = Math.abs(found[i] - certified[i]) / Math.abs(certified[i]);
      worst = Math.min(worst, e == 0 ? 16 : -Math.log10(e));
    }
    return worst;
  }

  private static void assertDigits(double least, double[] certified, double[] found) {
    double d = digits(certified, found);
    assertTrue(d >= least, "digits " + d + " of " + Arrays.toString(found));
  }

  /** NIST StRD Norris, lower difficulty: y = b0 + b1 x. */
  @Test
  void norris() {
    LeastSquares f = polynomial("norris", 1);
    assertDigits(DIGITS, new double[] {-0.262323073774029, 1.00211681802045}, f.coefficients());
    assertDigits(
        DIGITS, new double[] {0.232818234301152, 0.429796848199937e-3}, f.standardErrors());
    assertDigits(
        DIGITS,
        new double[] {0.884796396144373},
        new double[] {Math.sqrt(f.rss() / f.degreesOfFreedom())});
    assertEquals(34, f.degreesOfFreedom());
  }

  /** NIST StRD Longley, higher difficulty: six correlated regressors. */
  @Test
  void longley() {
    List<String[]> r = rows("nist-strd-longley.csv");
    double[][] x = new double[r.size()][7];
    for (int i = 0; i < x.length; i++) {
      x[i][0] = 1;
      for (int j = 1; j < 7; j++) {
        x[i][j] = Double.parseDouble(r.get(i)[j]);
      }
    }
    LeastSquares f = LeastSquares.fit(x, ReferenceData.column(r, 0));
    assertDigits(
        DIGITS,
        new double[] {
          -3482258.63459582,
          15.0618722713733,
          -0.358191792925910e-1,
          -2.02022980381683,
          -1.03322686717359,
          -0.511041056535807e-1,
          1829.15146461355
        },
        f.coefficients());
    assertDigits(
        DIGITS,
        new double[] {
          890420.383607373,
          84.9149257747669,
          0.334910077722432e-1,
          0.488399681651699,
          0.214274163161675,
          0.226073200069370,
          455.478499142212
        },
        f.standardErrors());
    assertDigits(
        DIGITS,
        new double[] {304.854073561965},
        new double[] {Math.sqrt(f.rss() / f.degreesOfFreedom())});
  }

  /** NIST StRD Wampler1, higher difficulty: degree 5, exact, every coefficient 1. */
  @Test
  void wampler1() {
    LeastSquares f = polynomial("wampler1", 5);
    assertDigits(DIGITS, new double[] {1, 1, 1, 1, 1, 1}, f.coefficients());
    // Certified residual SD 0; responses reach 4.5e6.
    assertEquals(0, Math.sqrt(f.rss() / f.degreesOfFreedom()), 1e-7);
  }

  /** NIST StRD Pontius, average difficulty: quadratic with x up to 3e6. */
  @Test
  void pontius() {
    LeastSquares f = polynomial("pontius", 2);
    assertDigits(
        DIGITS,
        new double[] {0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14},
        f.coefficients());
    assertDigits(
        DIGITS,
        new double[] {0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16},
        f.standardErrors());
  }

  /**
   * NIST StRD Filip, higher difficulty: degree 10 of x from -9 to -3, which many programs refuse.
   */
  @Test
  void filip() {
    LeastSquares f = polynomial("filip", 10);
    assertDigits(
        FILIP_DIGITS,
        new double[] {
          -1467.48961422980,
          -2772.17959193342,
          -2316.37108160893,
          -1127.97394098372,
          -354.478233703349,
          -75.1242017393757,
          -10.8753180355343,
          -1.06221498588947,
          -0.670191154593408e-1,
          -0.246781078275479e-2,
          -0.402962525080404e-4
        },
        f.coefficients());
    assertDigits(
        FILIP_DIGITS,
        new double[] {0.334801051324544e-2},
        new double[] {Math.sqrt(f.rss() / f.degreesOfFreedom())});
  }

  /** The condition of the scaled columns is about 1e10: sixteen digits less ten leave six. */
  private static final double FILIP_DIGITS = 6;

  /** F of a one-way layout: columns of ones and zeros by level, against the mean alone. */
  private static double oneWayF(String file) {
    List<String[]> r = ReferenceData.rows(LeastSquaresValidationTest.class, file);
    List<String> levels = r.stream().map(c -> c[0]).distinct().toList();
    double[] y = ReferenceData.column(r, 1);
    double[][] full = new double[y.length][levels.size()];
    double[][] mean = new double[y.length][1];
    for (int i = 0; i < y.length; i++) {
      full[i][levels.indexOf(r.get(i)[0])] = 1;
      mean[i][0] = 1;
    }
    LeastSquares a = LeastSquares.fit(full, y);
    LeastSquares b = LeastSquares.fit(mean, y);
    int d = b.degreesOfFreedom() - a.degreesOfFreedom();
    return (b.rss() - a.rss()) / d / (a.rss() / a.degreesOfFreedom());
  }

  /** NIST StRD SiRstv: 5 instruments, 5 repeats. */
  @Test
  void anovaSirstv() {
    assertEquals(
        1.18046237440255, oneWayF("/org/padtrue/mixed/reml/nist-strd-anova-sirstv.csv"), 1e-9);
  }

  /** NIST StRD SmLs01: 9 treatments, 21 repeats, F exactly 21. */
  @Test
  void anovaSmls01() {
    assertEquals(21, oneWayF("/org/padtrue/mixed/reml/nist-strd-anova-smls01.csv"), 1e-9);
  }

  /** NIST StRD AtmWtAg: 2 instruments, 24 repeats, seven constant leading digits of eleven. */
  @Test
  void anovaAtmWtAg() {
    assertEquals(
        15.9467335677930, oneWayF("/org/padtrue/mixed/reml/nist-strd-anova-atmwtag.csv"), 1e-6);
  }

  /**
   * Brownlee's stack loss data by ordinary least squares; values computed from the published data
   * with a general statistics package, shown to seven digits.
   */
  @Test
  void stackLoss() {
    List<String[]> r = rows("/org/padtrue/fit/stackloss.csv");
    double[][] x = new double[r.size()][];
    for (int i = 0; i < x.length; i++) {
      x[i] =
          new double[] {
            1,
            Double.parseDouble(r.get(i)[0]),
            Double.parseDouble(r.get(i)[1]),
            Double.parseDouble(r.get(i)[2])
          };
    }
    LeastSquares f = LeastSquares.fit(x, ReferenceData.column(r, 3));
    double[] b = f.coefficients();
    assertEquals(-39.9196744, b[0], 5e-8);
    assertEquals(0.7156402, b[1], 5e-8);
    assertEquals(1.2952861, b[2], 5e-8);
    assertEquals(-0.1521225, b[3], 5e-8);
    assertEquals(3.2433639, Math.sqrt(f.rss() / f.degreesOfFreedom()), 5e-8);
  }

  @Test
  void dependentColumnsAreRefused() {
    double[][] x = {{1, 2}, {2, 4}, {3, 6}};
    UndeterminedException e =
        assertThrows(
            UndeterminedException.class, () -> LeastSquares.fit(x, new double[] {1, 2, 3}));
    assertEquals("the columns are linearly dependent", e.getMessage());
  }

  @Test
  void fewerRowsThanColumnsAreRefused() {
    UndeterminedException e =
        assertThrows(
            UndeterminedException.class,
            () -> LeastSquares.fit(new double[][] {{1, 2}}, new double[] {1}));
    assertEquals("rows = 1; expected at least 2", e.getMessage());
  }
}
