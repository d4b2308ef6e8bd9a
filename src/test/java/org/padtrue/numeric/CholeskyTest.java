package org.padtrue.numeric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.junit.jupiter.api.Test;

/** Held against the decomposition of Commons Math, and against dependences that are planted. */
class CholeskyTest {
  private static final double RELATIVE_TOL = 1e-10;

  @Test
  void sameAsCommonsMathWhereNothingDepends() {
    Random random = new Random(11);
    for (int n = 1; n <= 12; n++) {
      double[][] a = gram(random, n, n + 3);
      double[] b = random.doubles(n, -1, 1).toArray();
      CholeskyDecomposition other = new CholeskyDecomposition(new Array2DRowRealMatrix(a));
      Cholesky own = new Cholesky(a, 1e-12);

      assertThat(own.isRegular()).isTrue();
      assertThat(Math.exp(own.logDeterminant()) / other.getDeterminant())
          .isCloseTo(1, within(RELATIVE_TOL));
      double[][] inverse = other.getSolver().getInverse().getData();
      for (int i = 0; i < n; i++) {
        assertThat(own.inverse()[i]).containsExactly(inverse[i], within(RELATIVE_TOL * n));
      }
      assertThat(own.times(b)).containsExactly(other.getL().operate(b), within(RELATIVE_TOL));
      assertThat(new Array2DRowRealMatrix(a).operate(own.solve(b)))
          .containsExactly(b, within(RELATIVE_TOL));
    }
  }

  /**
   * Column 2 is the sum of the two before it, column 4 is empty: the others are as without them.
   */
  @Test
  void whatDependsOnEarlierColumnsIsLeftOut() {
    double[][] x = new double[9][5];
    double[][] without = new double[9][3];
    Random random = new Random(12);
    for (int i = 0; i < x.length; i++) {
      without[i] = random.doubles(3, -1, 1).toArray();
      double[] w = without[i];
      x[i] = new double[] {w[0], w[1], w[0] + w[1], w[2], 0};
    }
    Cholesky all = new Cholesky(gram(x), 1e-10);
    Cholesky few = new Cholesky(gram(without), 1e-10);

    assertThat(all.isRegular()).isFalse();
    assertThat(all.rank()).isEqualTo(3);
    assertThat(all.isDropped(2)).isTrue();
    assertThat(all.isDropped(3)).isFalse();
    assertThat(all.isDropped(4)).isTrue();
    assertThat(all.logDeterminant()).isCloseTo(few.logDeterminant(), within(RELATIVE_TOL));
    double[] b = few.solve(new double[] {1, 2, 3});
    assertThat(all.solve(new double[] {1, 2, 9, 3, 9}))
        .containsExactly(new double[] {b[0], b[1], 0, b[2], 0}, within(RELATIVE_TOL));
    double[] row = few.inverse()[2];
    assertThat(all.inverse()[3])
        .containsExactly(new double[] {row[0], row[1], 0, row[2], 0}, within(RELATIVE_TOL));
    assertThat(all.inverse()[2]).containsOnly(0);
  }

  private static double[][] gram(Random random, int columns, int rows) {
    double[][] x = new double[rows][];
    for (int i = 0; i < rows; i++) {
      x[i] = random.doubles(columns, -1, 1).toArray();
    }
    return gram(x);
  }

  private static double[][] gram(double[][] x) {
    Array2DRowRealMatrix m = new Array2DRowRealMatrix(x);
    return m.transpose().multiply(m).getData();
  }
}
