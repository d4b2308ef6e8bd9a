package org.padtrue.numeric;

import java.util.ArrayList;
import java.util.List;

/**
 * The little dense algebra a plan needs: symmetric matrices, some of them singular on purpose.
 * Entries are in the units of the caller.
 */
public final class SymmetricMatrices {
  private SymmetricMatrices() {}

  /** Matrix product. */
  public static double[][] product(double[][] a, double[][] b) {
    double[][] c = new double[a.length][b.length == 0 ? 0 : b[0].length];
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < b.length; k++) {
        double f = a[i][k];
        if (f != 0) {
          for (int j = 0; j < c[i].length; j++) {
            c[i][j] += f * b[k][j];
          }
        }
      }
    }
    return c;
  }

  /**
   * Reduced row-echelon form, by Gauss-Jordan with row pivoting.
   *
   * @param rows vectors, changed in place
   * @param order columns in the order in which they may become pivots
   * @param tolerance entries below it count as zero
   * @return the independent rows, each 1 at its pivot where all others are 0
   */
  public static List<double[]> echelon(double[][] rows, int[] order, double tolerance) {
    int done = 0;
    for (int column : order) {
      if (done == rows.length) {
        break;
      }
      int best = done;
      for (int r = done; r < rows.length; r++) {
        if (Math.abs(rows[r][column]) > Math.abs(rows[best][column])) {
          best = r;
        }
      }
      if (Math.abs(rows[best][column]) <= tolerance) {
        continue;
      }
      double[] pivot = rows[best];
      rows[best] = rows[done];
      rows[done] = pivot;
      scale(pivot, 1 / pivot[column]);
      for (int r = 0; r < rows.length; r++) {
        if (r != done) {
          subtract(rows[r], pivot, rows[r][column], tolerance);
        }
      }
      done++;
    }
    List<double[]> independent = new ArrayList<>(List.of(rows).subList(0, done));
    independent.forEach(r -> clean(r, tolerance));
    return independent;
  }

  /** Rounding left where zero belongs would be taken for a weight later. */
  private static void clean(double[] v, double tolerance) {
    for (int i = 0; i < v.length; i++) {
      if (Math.abs(v[i]) <= tolerance) {
        v[i] = 0;
      }
    }
  }

  private static void scale(double[] v, double f) {
    for (int i = 0; i < v.length; i++) {
      v[i] *= f;
    }
  }

  private static void subtract(double[] from, double[] what, double f, double tolerance) {
    if (f == 0) {
      return;
    }
    for (int i = 0; i < from.length; i++) {
      from[i] -= f * what[i];
    }
    clean(from, tolerance);
  }
}
