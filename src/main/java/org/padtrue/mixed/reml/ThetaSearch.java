package org.padtrue.mixed.reml;

import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.analysis.MultivariateFunction;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.SimpleBounds;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.BOBYQAOptimizer;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/**
 * Finds the relative standard deviations theta >= 0 that minimise a deviance.
 *
 * <p>The search runs in zeta = log(1 + theta), which is linear near zero, where the boundary lies,
 * and takes in any ratio: BOBYQA for two parameters and more, Brent for one, each followed by a
 * look at the boundary itself.
 *
 * <p>Theta and deviance are pure numbers.
 */
public final class ThetaSearch {
  private static final double ZETA_MAX = 16;
  private static final double[] COARSE = {0, 0.1, 0.3, 0.8, 1.5, 2.5, 4, 6, 9};

  private ThetaSearch() {}

  static double theta(double zeta) {
    return Math.expm1(zeta);
  }

  /**
   * Minimises.
   *
   * @param f deviance as a function of theta
   * @param d number of parameters
   * @param start theta to start from, or an empty array for a coarse look round
   */
  public static double[] minimise(ToDoubleFunction<double[]> f, int d, double[] start) {
    if (d == 0) {
      return new double[0];
    }
    Objective g = new Objective(f, d);
    double[] z = start.length == d ? zeta(start) : coarse(g, d);
    z = d == 1 ? brent(g, z) : bobyqa(g, z, start.length == d);
    return theta(toBoundary(g, z));
  }

  private static double[] zeta(double[] theta) {
    double[] z = new double[theta.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = Math.log1p(theta[i]);
    }
    return z;
  }

  private static double[] theta(double[] z) {
    double[] t = new double[z.length];
    for (int i = 0; i < t.length; i++) {
      t[i] = theta(z[i]);
    }
    return t;
  }

  private static double[] coarse(Objective g, int d) {
    double[] z = new double[d];
    double best = Double.POSITIVE_INFINITY;
    double at = 0;
    for (double c : COARSE) {
      java.util.Arrays.fill(z, c);
      double v = g.value(z);
      if (v < best) {
        best = v;
        at = c;
      }
    }
    java.util.Arrays.fill(z, at);
    for (int j = 0; j < d && d > 1; j++) {
      double keep = z[j];
      for (double c : COARSE) {
        z[j] = c;
        double v = g.value(z);
        if (v < best) {
          best = v;
          keep = c;
        }
      }
      z[j] = keep;
    }
    return z;
  }

  private static double[] brent(Objective g, double[] z) {
    double[] x = new double[1];
    double lo = Math.max(0, z[0] - 1.5 - 0.3 * z[0]);
    double hi = Math.min(ZETA_MAX, z[0] + 1.5 + 0.3 * z[0]);
    double best =
        new BrentOptimizer(1e-9, 1e-12)
            .optimize(
                new MaxEval(400),
                new UnivariateObjectiveFunction(
                    v -> {
                      x[0] = v;
                      return g.value(x);
                    }),
                GoalType.MINIMIZE,
                new SearchInterval(lo, hi, z[0] > lo && z[0] < hi ? z[0] : 0.5 * (lo + hi)))
            .getPoint();
    return new double[] {best};
  }

  private static double[] bobyqa(Objective g, double[] start, boolean warm) {
    int d = start.length;
    double[] lower = new double[d];
    double[] upper = new double[d];
    java.util.Arrays.fill(upper, ZETA_MAX);
    double[] z = start;
    double last = g.value(z);
    double radius = warm ? 0.1 : 0.4;
    for (int pass = 0; pass < 3; pass++) {
      double[] next = z;
      try {
        next =
            new BOBYQAOptimizer(2 * d + 1, radius, 1e-8)
                .optimize(
                    new MaxEval(400 * d),
                    new ObjectiveFunction(g),
                    GoalType.MINIMIZE,
                    new InitialGuess(z),
                    new SimpleBounds(lower, upper))
                .getPoint();
      } catch (MathIllegalStateException e) {
        // Its trust region fails on a flat ridge; the best point seen so far is kept.
        next = g.best();
      }
      double v = g.value(next);
      if (v <= last) {
        z = next;
      }
      if (last - v < 1e-9 * (1 + Math.abs(last))) {
        break;
      }
      last = Math.min(v, last);
      radius = 0.05;
    }
    return z;
  }

  /** Snaps parameters to zero where the boundary is as good. */
  private static double[] toBoundary(Objective g, double[] z) {
    double v = g.value(z);
    for (int j = 0; j < z.length; j++) {
      if (z[j] == 0) {
        continue;
      }
      double keep = z[j];
      z[j] = 0;
      double w = g.value(z);
      if (w <= v + 1e-9) {
        v = Math.min(v, w);
      } else {
        z[j] = keep;
      }
    }
    return z;
  }

  private static final class Objective implements MultivariateFunction {
    private final ToDoubleFunction<double[]> f;
    private final double[] theta;
    private double bestValue = Double.POSITIVE_INFINITY;
    private double[] best;

    Objective(ToDoubleFunction<double[]> f, int d) {
      this.f = f;
      theta = new double[d];
      best = new double[d];
    }

    @Override
    public double value(double[] z) {
      for (int i = 0; i < z.length; i++) {
        theta[i] = ThetaSearch.theta(Math.max(0, z[i]));
      }
      double v = f.applyAsDouble(theta);
      if (v < bestValue) {
        bestValue = v;
        best = z.clone();
      }
      return v;
    }

    double[] best() {
      return best.clone();
    }
  }
}
