package org.padtrue.mixed;

import java.util.Arrays;

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
   */
  public RandomEffects(CrossProducts products, int[] thetaOf, int[] blockOf) {
    this(products, thetaOf, blockOf, Arrays.stream(thetaOf).max().orElse(-1) + 1);
  }

  /** A model in which columns with an index of {@code parameters} are not held to the others. */
  RandomEffects(CrossProducts products, int[] thetaOf, int[] blockOf, int parameters) {
    this.products = products;
    this.thetaOf = thetaOf.clone();
    this.blockOf = blockOf.clone();
    this.parameters = parameters;
  }

  /** Number of variance parameters besides the residual variance. */
  public int parameters() {
    return parameters;
  }

  MixedSystem system() {
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
   * Likelihood-ratio statistic of one variance parameter against zero, others re-estimated.
   *
   * @param fit a REML fit of this model
   * @param j the variance parameter
   * @return drop in deviance, not negative
   */
  public double likelihoodRatio(RandomEffectsFit fit, int j) {
    if (fit.theta()[j] == 0) {
      return 0;
    }
    MixedSystem s = system();
    double[] rest = new double[parameters - 1];
    double[] full = new double[parameters];
    for (int k = 0, r = 0; k < parameters; k++) {
      if (k != j) {
        rest[r++] = fit.theta()[k];
      }
    }
    java.util.function.ToDoubleFunction<double[]> f =
        t -> {
          for (int k = 0, r = 0; k < parameters; k++) {
            full[k] = k == j ? 0 : t[r++];
          }
          return s.deviance(full, Estimation.REML);
        };
    double[] best = ThetaSearch.minimise(f, parameters - 1, rest);
    return Math.max(0, f.applyAsDouble(best) - fit.deviance());
  }
}
