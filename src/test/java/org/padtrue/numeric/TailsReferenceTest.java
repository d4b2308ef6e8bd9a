package org.padtrue.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Probability functions against tables.
 *
 * <p>Critical values with three decimals: NIST/SEMATECH e-Handbook of Statistical Methods,
 * 1.3.6.7.2 (t), 1.3.6.7.3 (F), 1.3.6.7.4 (chi-square), from memory; each was confirmed with R
 * 4.2.2. Values with twelve digits: R 4.2.2, functions pchisq, qchisq, pf, qt, pt.
 */
class TailsReferenceTest {
  /** Half a unit of the third decimal of a critical value, seen in its tail probability. */
  private static final double PRINTED_REL_TOL = 5e-4;

  private static final double R_REL_TOL = 1e-9;

  private static void assertRelative(double expected, double actual, double tol) {
    assertEquals(expected, actual, tol * Math.abs(expected));
  }

  @ParameterizedTest
  @CsvSource({"3.841,1,0.05", "18.307,10,0.05", "124.342,100,0.05", "23.209,10,0.01"})
  void chiSquareTable(double critical, double df, double tail) {
    assertRelative(tail, Tails.chiSquare(critical, df), PRINTED_REL_TOL);
    assertEquals(critical, Tails.chiSquareQuantile(1 - tail, df), 5e-4);
  }

  @ParameterizedTest
  @CsvSource({
    "3.841,1,0.050013683764",
    "0.5,3,0.918891411655",
    "1200,1000,1.22559423306e-5",
    "200,5,2.84062289864e-41"
  })
  void chiSquareFarAndNear(double x, double df, double tail) {
    assertRelative(tail, Tails.chiSquare(x, df), R_REL_TOL);
  }

  @ParameterizedTest
  @CsvSource({"0.95,10,18.3070380533", "0.99,100,135.8067231710", "0.05,7,2.1673499093"})
  void chiSquareQuantiles(double p, double df, double quantile) {
    assertRelative(quantile, Tails.chiSquareQuantile(p, df), R_REL_TOL);
  }

  @ParameterizedTest
  @CsvSource({"4.965,1,10,0.05", "3.326,5,10,0.05", "2.348,10,20,0.05", "5.636,5,10,0.01"})
  void fTable(double critical, double df1, double df2, double tail) {
    assertRelative(tail, Tails.f(critical, df1, df2), PRINTED_REL_TOL);
  }

  @ParameterizedTest
  @CsvSource({
    "100,2,30,5.38147442329e-14",
    "1.02,700,12,0.534040815984",
    "50,3,6.5,7.18935347726e-5"
  })
  void fFarAndNear(double f, double df1, double df2, double tail) {
    assertRelative(tail, Tails.f(f, df1, df2), R_REL_TOL);
  }

  /** Beyond ten million denominator degrees of freedom F is chi-square over its own. */
  @Test
  void fWithoutEndOfDenominator() {
    assertRelative(Tails.chiSquare(7.5, 3), Tails.f(2.5, 3, 1e9), 1e-9);
    assertRelative(Tails.chiSquare(7.5, 3), Tails.f(2.5, 3, 9e6), 1e-5);
  }

  @ParameterizedTest
  @CsvSource({"1,12.706", "10,2.228", "30,2.042", "100,1.984"})
  void tTable(double df, double quantile) {
    assertEquals(quantile, Tails.t(0.95, df), 5e-4);
  }

  @ParameterizedTest
  @CsvSource({
    "1,12.70620473617",
    "2.5,3.57465484200",
    "10,2.22813885199",
    "30,2.04227245630",
    "100,1.98397151852",
    "1000000,1.95996635681"
  })
  void tQuantiles(double df, double quantile) {
    assertRelative(quantile, Tails.t(0.95, df), R_REL_TOL);
  }

  @ParameterizedTest
  @CsvSource({"2.228,10,0.0500117718171", "-8,10,1.17749427897e-5", "40,4,2.33401632260e-6"})
  void tTwoSided(double t, double df, double tail) {
    assertRelative(tail, Tails.f(t * t, 1, df), R_REL_TOL);
  }

  /** Self and Liang (1987): at a boundary half of chi-square 1. 2.7055 is the 5 % point. */
  @Test
  void halfChiSquare() {
    assertRelative(0.050001362349989, Tails.halfChiSquare(2.7055), R_REL_TOL);
    assertRelative(0.000782701129001, Tails.halfChiSquare(10), R_REL_TOL);
    assertEquals(1, Tails.halfChiSquare(0), 0);
  }

  @Test
  void whatSaysNothingIsNotANumber() {
    assertTrue(Double.isNaN(Tails.f(Double.NaN, 1, 5)));
    assertTrue(Double.isNaN(Tails.f(2, 0, 5)));
    assertTrue(Double.isNaN(Tails.f(2, 1, 0)));
    assertTrue(Double.isNaN(Tails.chiSquare(2, 0)));
    assertTrue(Double.isNaN(Tails.t(0.95, 0)));
    assertEquals(1, Tails.f(-1e-9, 1, 5), 0);
  }
}
