package org.padtrue.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.ReferenceData;
import org.padtrue.numeric.LeastSquares;

/**
 * Validation of the high-breakdown start against published least-trimmed-squares fits.
 *
 * <p>Subsets and reweighted coefficients: github cran/robustbase, tests/tlts.Rout.save. Data:
 * Rousseeuw and Leroy (1987), Brownlee (1965).
 */
class TrimmedFitValidationTest {
  private static final double PRINTED_TOL = 5e-4;

  private record Data(double[][] x, double[] y) implements TrimmedFit.Cases {
    @Override
    public int size() {
      return y.length;
    }

    @Override
    public int columns() {
      return x[0].length;
    }

    @Override
    public int equations() {
      return 1;
    }

    @Override
    public double row(int i, int equation, double[] into) {
      System.arraycopy(x[i], 0, into, 0, into.length);
      return y[i];
    }

    LeastSquares ols(int[] which) {
      double[][] a = new double[which.length][];
      double[] b = new double[which.length];
      for (int k = 0; k < which.length; k++) {
        a[k] = x[which[k]];
        b[k] = y[which[k]];
      }
      return LeastSquares.fit(a, b);
    }

    double residual(double[] b, int i) {
      double r = y[i];
      for (int j = 0; j < b.length; j++) {
        r -= b[j] * x[i][j];
      }
      return r;
    }

    /** All but the named outliers (1-based), which the published fit gives no weight. */
    LeastSquares without(int... outliers) {
      List<Integer> keep = new ArrayList<>();
      for (int i = 0; i < y.length; i++) {
        int k = i + 1;
        if (Arrays.stream(outliers).noneMatch(o -> o == k)) {
          keep.add(i);
        }
      }
      return ols(keep.stream().mapToInt(Integer::intValue).toArray());
    }
  }

  private static Data read(String file, int response, int... regressors) {
    List<String[]> r = ReferenceData.rows(TrimmedFitValidationTest.class, file);
    double[][] x = new double[r.size()][regressors.length + 1];
    for (int i = 0; i < x.length; i++) {
      x[i][0] = 1;
      for (int j = 0; j < regressors.length; j++) {
        x[i][j + 1] = Double.parseDouble(r.get(i)[regressors[j]]);
      }
    }
    return new Data(x, ReferenceData.column(r, response));
  }

  private static int[] oneBased(int[] kept) {
    return Arrays.stream(kept).map(i -> i + 1).toArray();
  }

  /** The cases farthest from the fit, 1-based, in their order. */
  private static List<Integer> farthest(Data d, TrimmedFit f, int count) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < d.size(); i++) {
      order.add(i + 1);
    }
    order.sort(
        java.util.Comparator.comparingDouble(i -> -Math.abs(d.residual(f.coefficients(), i - 1))));
    return order.subList(0, count).stream().sorted().toList();
  }

  /**
   * Stars of CYG OB1: four giants pull an ordinary fit to the wrong sign. LTS with h = 25 keeps the
   * published best subset; the fit of that subset is -13.623990 + 4.219182 x with trimmed sum of
   * squares 0.8368929 (computed from the data; subset found independently).
   */
  @Test
  void starsKeepThePublishedSubset() {
    Data d = read("stars-cyg-ob1.csv", 1, 0);
    assertEquals(-0.4133039, LeastSquares.fit(d.x(), d.y()).coefficients()[1], 5e-8);
    TrimmedFit f = TrimmedFit.fit(d, 25);
    assertArrayEquals(
        new int[] {
          2, 4, 6, 10, 13, 15, 17, 19, 21, 22, 25, 27, 28, 29, 33, 35, 36, 38, 39, 41, 42, 43, 44,
          45, 46
        },
        oneBased(f.kept()));
    assertEquals(-13.623990, f.coefficients()[0], 5e-7);
    assertEquals(4.219182, f.coefficients()[1], 5e-7);
    assertEquals(0.8368929, f.objective(), 5e-8);
  }

  /** The published outliers of the stars left out: reweighted fit -8.500 + 3.046 x, scale 0.456. */
  @Test
  void starsReweighted() {
    Data d = read("stars-cyg-ob1.csv", 1, 0);
    LeastSquares f = d.without(7, 9, 11, 20, 30, 34);
    assertEquals(-8.500, f.coefficients()[0], PRINTED_TOL);
    assertEquals(3.046, f.coefficients()[1], PRINTED_TOL);
    assertEquals(1.926, f.standardErrors()[0], PRINTED_TOL);
    assertEquals(0.437, f.standardErrors()[1], PRINTED_TOL);
    assertEquals(List.of(7, 9, 11, 20, 30, 34), farthest(d, TrimmedFit.fit(d, 25), 6));
  }

  /** Stack loss, h = 13: best subset 5-12, 15-19, outliers 1 3 4 21. */
  @Test
  void stackLossKeepsThePublishedSubset() {
    Data d = read("stackloss.csv", 3, 0, 1, 2);
    TrimmedFit f = TrimmedFit.fit(d, 13);
    assertArrayEquals(
        new int[] {5, 6, 7, 8, 9, 10, 11, 12, 15, 16, 17, 18, 19}, oneBased(f.kept()));
    assertEquals(List.of(1, 3, 4, 21), farthest(d, f, 4));
    LeastSquares reweighted = d.without(1, 3, 4, 21);
    double[] b = reweighted.coefficients();
    assertEquals(-37.6525, b[0], PRINTED_TOL);
    assertEquals(0.7977, b[1], PRINTED_TOL);
    assertEquals(0.5773, b[2], PRINTED_TOL);
    assertEquals(-0.0671, b[3], PRINTED_TOL);
  }

  /** With everything kept it is the ordinary fit. */
  @Test
  void allKeptIsOrdinaryLeastSquares() {
    Data d = read("stackloss.csv", 3, 0, 1, 2);
    TrimmedFit f = TrimmedFit.fit(d, 21);
    double[] b = LeastSquares.fit(d.x(), d.y()).coefficients();
    for (int j = 0; j < b.length; j++) {
      assertEquals(b[j], f.coefficients()[j], 1e-7 * Math.abs(b[j]));
    }
  }

  /** Two in five replaced by anything: the planted line is kept exactly. */
  @Test
  void twoInFiveWrongDoNotMoveIt() {
    java.util.Random random = new java.util.Random(7);
    int n = 200;
    double[][] x = new double[n][2];
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      x[i][0] = 1;
      x[i][1] = 10 * random.nextDouble();
      y[i] = i % 5 < 2 ? 40 * random.nextDouble() : 3 + 0.5 * x[i][1];
    }
    TrimmedFit f = TrimmedFit.fit(new Data(x, y), 110);
    assertEquals(3, f.coefficients()[0], 1e-9);
    assertEquals(0.5, f.coefficients()[1], 1e-9);
  }
}
