package org.padtrue.room;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.ojalgo.matrix.store.R064Store;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.convex.ConvexSolver;

/** The shortest vector that keeps to half-spaces (a convex quadratic program). */
final class ConvexProgram {
  /** Rows may be missed by this, mm, from rounding; a solution that misses more is none. */
  private static final double ROUNDING = 1e-7;

  private ConvexProgram() {}

  /**
   * A half-space: the product with the vector is at least a number.
   *
   * @param of coefficients
   * @param least number
   */
  record Row(double[] of, double least) {
    /** Distance of a vector from it; 0 when the vector keeps it, infinite when nothing can. */
    double distance(double[] x) {
      double missed = missed(x);
      if (!(missed > 0)) {
        return 0;
      }
      double square = 0;
      for (double v : of) {
        square += v * v;
      }
      return square > 0 ? missed / Math.sqrt(square) : Double.POSITIVE_INFINITY;
    }

    /** By how much a vector misses it; negative = it is kept with room to spare. */
    double missed(double[] x) {
      double v = least;
      for (int k = 0; k < x.length; k++) {
        v -= of[k] * x[k];
      }
      return v;
    }
  }

  /**
   * Solves.
   *
   * @param size length of the vector
   * @param rows half-spaces
   * @return the shortest vector in all of them; null when there is none
   */
  static double @Nullable [] shortest(int size, List<Row> rows) {
    double[] x = new double[size];
    Row worst = worst(x, rows);
    if (worst == null) {
      return x;
    }
    // the shortest vector in one half-space is the answer when it is in all others
    double square = 0;
    for (double v : worst.of()) {
      square += v * v;
    }
    for (int k = 0; k < size; k++) {
      x[k] = square > 0 ? worst.of()[k] * worst.least() / square : 0;
    }
    if (worst(x, rows) == null) {
      return x;
    }
    R064Store of = R064Store.FACTORY.make(rows.size(), size);
    R064Store most = R064Store.FACTORY.make(rows.size(), 1);
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      for (int k = 0; k < size; k++) {
        of.set(i, k, -r.of()[k]);
      }
      most.set(i, 0, -r.least());
    }
    Optimisation.Result found =
        ConvexSolver.newBuilder()
            .objective(R064Store.FACTORY.makeEye(size, size), R064Store.FACTORY.make(size, 1))
            .inequalities(of, most)
            .build()
            .solve();
    if (!found.getState().isFeasible()) {
      return null;
    }
    for (int k = 0; k < size; k++) {
      x[k] = found.doubleValue(k);
    }
    return worst(x, rows) == null ? x : null;
  }

  private static @Nullable Row worst(double[] x, List<Row> rows) {
    Row worst = null;
    double most = ROUNDING;
    for (Row r : rows) {
      double missed = r.missed(x);
      if (missed > most) {
        most = missed;
        worst = r;
      }
    }
    return worst;
  }
}
