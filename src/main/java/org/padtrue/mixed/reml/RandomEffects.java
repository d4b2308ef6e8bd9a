package org.padtrue.mixed.reml;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.padtrue.numeric.Tails;

/**
 * A linear mixed model y = X b + Z u + e with independent random effects, u_j ~ N(0, (theta
 * sigma)^2), e ~ N(0, sigma^2 / weight), by profiled deviance.
 *
 * <p>Any set of crossed or nested factors; each random column belongs to one variance parameter and
 * one block (factor). Source: Bates et al. (2015), J. Stat. Softw. 67(1).
 */
public final class RandomEffects {
  private final CrossProducts products;
  private final int[] thetaOf;
  private final int[] blockOf;
  private final int parameters;

  /**
   * A model.
   *
   * @param products cross products of fixed columns, random columns and response
   * @param thetaOf for each random column the index of its variance parameter
   * @param blockOf for each random column its factor; within a factor, columns are orthogonal
   * @param parameters number of variance parameters; columns with this index are not held to the
   *     others
   */
  public RandomEffects(CrossProducts products, int[] thetaOf, int[] blockOf, int parameters) {
    this.products = products;
    this.thetaOf = thetaOf.clone();
    this.blockOf = blockOf.clone();
    this.parameters = parameters;
  }

  /** Number of variance parameters besides the residual variance. */
  public int parameters() {
    return parameters;
  }

  public MixedSystem system() {
    return new MixedSystem(products, thetaOf, blockOf, parameters);
  }

  /** Estimates everything, looking for theta from scratch. */
  public RandomEffectsFit fit(Estimation by) {
    return fit(by, new double[0]);
  }

  /** Estimates everything, starting at a theta that is near. */
  public RandomEffectsFit fit(Estimation by, double[] start) {
    MixedSystem s = system();
    double[] theta = ThetaSearch.minimise(t -> s.deviance(t, by), parameters, start);
    return at(theta, by);
  }

  /** Coefficients for a given theta. */
  public RandomEffectsFit at(double[] theta, Estimation by) {
    MixedSystem s = system();
    double deviance = s.deviance(theta, by);
    double[] c = s.solve(theta);
    int df = by == Estimation.REML ? s.n - s.rank : s.n;
    return new RandomEffectsFit(
        theta,
        Arrays.copyOf(c, s.q),
        Arrays.copyOfRange(c, s.q, s.q + s.p),
        s.rss,
        df > 0 ? s.rss / df : Double.NaN,
        deviance,
        s.n,
        s.rank,
        s.inverse(theta));
  }

  /**
   * Test of one variance parameter against zero, others re-estimated.
   *
   * @param fit a REML fit of this model
   * @param j the variance parameter
   */
  public VarianceTest test(RandomEffectsFit fit, int j) {
    if (fit.theta()[j] == 0) {
      return new VarianceTest(0, 1);
    }
    MixedSystem s = system();
    double[] rest = without(s, fit.theta(), new int[] {j});
    double ratio = Math.max(0, s.deviance(rest, Estimation.REML) - fit.deviance());
    int[] columns = columns(j);
    if (columns.length > ExactNull.MANY) {
      return new VarianceTest(ratio, Tails.halfChiSquare(ratio));
    }
    double[] mu = eigenvalues(s.information(rest, columns), columns.length).mu();
    return new VarianceTest(ratio, new ExactNull(mu, s.n - s.rank).p(ratio));
  }

  /**
   * Test of one variance that all columns of some parameters share, with the other variances held.
   * For many columns a score test (Zhang and Lin 2003, Biostatistics 4, 57-74): y' P Z Z' P y
   * against a scaled chi-square with the same mean and variance; its ratio is not known (NaN).
   *
   * @param theta the others' variances, best without what is tested, which is 0 here
   * @param tested parameters, taken as one
   */
  public VarianceTest joint(double[] theta, int... tested) {
    MixedSystem s = system();
    int[] columns = columns(tested);
    double[][] info = s.information(theta, columns);
    int df = s.n - s.rank;
    if (columns.length > 2 * ExactNull.MANY) {
      return new VarianceTest(Double.NaN, score(info, columns.length, df));
    }
    Contrasts c = eigenvalues(info, columns.length);
    double ratio = ExactNull.ratio(c.mu(), c.w2(), info[columns.length][columns.length], df);
    return new VarianceTest(ratio, new ExactNull(c.mu(), df).p(ratio));
  }

  private static double score(double[][] info, int columns, int df) {
    double q = 0;
    double trace = 0;
    double squares = 0;
    for (int i = 0; i < columns; i++) {
      q += info[columns][i] * info[columns][i];
      trace += info[i][i];
      for (int j = 0; j < columns; j++) {
        squares += info[i][j] * info[i][j];
      }
    }
    double statistic = q * df / info[columns][columns];
    return Tails.chiSquare(statistic * trace / squares, trace * trace / squares);
  }

  /** What is known of the columns of some parameters in all, in placements; others at theta. */
  public double information(double[] theta, int... parameters) {
    int[] columns = columns(parameters);
    double[][] info = system().information(theta, columns);
    double sum = 0;
    for (int i = 0; i < columns.length; i++) {
      sum += info[i][i];
    }
    return sum;
  }

  private int[] columns(int... of) {
    return java.util.stream.IntStream.range(0, thetaOf.length)
        .filter(c -> java.util.Arrays.stream(of).anyMatch(t -> t == thetaOf[c]))
        .toArray();
  }

  /** The best theta with some parameters at zero. */
  private double[] without(MixedSystem s, double[] start, int[] tested) {
    int[] free =
        java.util.stream.IntStream.range(0, parameters)
            .filter(k -> java.util.Arrays.stream(tested).noneMatch(t -> t == k))
            .toArray();
    double[] full = new double[parameters];
    java.util.function.ToDoubleFunction<double[]> f =
        t -> {
          for (int r = 0; r < free.length; r++) {
            full[free[r]] = t[r];
          }
          return s.deviance(full, Estimation.REML);
        };
    double[] from = java.util.Arrays.stream(free).mapToDouble(k -> start[k]).toArray();
    double[] best = ThetaSearch.minimise(f, free.length, from);
    double[] out = new double[parameters];
    for (int r = 0; r < free.length; r++) {
      out[free[r]] = best[r];
    }
    return out;
  }

  /** Independent contrasts: their information mu and squared size of the response along each. */
  private record Contrasts(double[] mu, double[] w2) {}

  private static Contrasts eigenvalues(double[][] info, int columns) {
    EigenDecomposition e =
        new EigenDecomposition(
            new Array2DRowRealMatrix(info).getSubMatrix(0, columns - 1, 0, columns - 1));
    double[] mu = e.getRealEigenvalues();
    double[] w2 = new double[columns];
    for (int k = 0; k < columns; k++) {
      double v = 0;
      for (int i = 0; i < columns; i++) {
        v += e.getEigenvector(k).getEntry(i) * info[columns][i];
      }
      w2[k] = mu[k] > 0 ? v * v / mu[k] : 0;
    }
    return new Contrasts(mu, w2);
  }
}
