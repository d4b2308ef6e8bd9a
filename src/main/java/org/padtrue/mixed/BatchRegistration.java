package org.padtrue.mixed;

/**
 * What the panels measured say about the batch: one value of a registration term, and how much it
 * varies from panel to panel.
 *
 * <p>Estimates are in the unit of the term, variances in its square.
 *
 * @param mean estimate for the batch
 * @param variance of that estimate, panel-to-panel variance included
 * @param between variance from panel to panel
 * @param basis what {@code between} rests on
 * @param df degrees of freedom of {@code variance}
 */
public record BatchRegistration(
    double mean, double variance, double between, Basis basis, double df) {

  /** What the variance from panel to panel rests on. */
  public enum Basis {
    /** The job or the log states it. */
    STATED,
    /** What is usual, for one panel. */
    USUAL,
    /** What is usual together with what several panels show. */
    PANELS
  }

  /** Degrees of freedom that the usual repeatability is worth. */
  public static final double PRIOR_DF = 4;

  private static final int GRID = 61;
  private static final double SPAN = 40;

  /** True when the job or the log states the repeatability. */
  public boolean given() {
    return basis == Basis.STATED;
  }

  /**
   * Terms with a stated repeatability each.
   *
   * @param value estimate of each panel
   * @param variance its squared standard error
   * @param repeatability stated standard deviation from panel to panel
   * @param df degrees of freedom of one panel's standard error
   */
  public static BatchRegistration stated(
      double[] value, double[] variance, double repeatability, double df) {
    int n = value.length;
    double b = repeatability * repeatability;
    double[] m = weighted(value, variance, b);
    // The stated part is known: only the measured share has few degrees of freedom.
    double share = Math.max(1e-12, 1 - b / (n * m[1]));
    return new BatchRegistration(m[0], m[1], b, Basis.STATED, b > 0 ? df / (share * share) : df);
  }

  /**
   * Terms that share one repeatability which nobody stated: x and y, or rotation alone.
   *
   * <p>The variance from panel to panel has the prior of a variance estimated as {@code usual}^2
   * with {@value #PRIOR_DF} degrees of freedom (scaled inverse chi-square); the restricted
   * likelihood of the panels, all terms together, updates it. The inverse of the mean precision is
   * taken, which for exact estimates is (4 usual^2 + sum of squares) / (4 + degrees of freedom).
   *
   * @param value estimates, term by panel
   * @param variance their squared standard errors
   * @param usual usual standard deviation from panel to panel, positive
   * @param df degrees of freedom of one panel's standard error
   * @return one per term
   */
  public static BatchRegistration[] pooled(
      double[][] value, double[][] variance, double usual, double df) {
    int terms = value.length;
    int n = value[0].length;
    double between = n == 1 ? usual * usual : between(value, variance, usual);
    BatchRegistration[] out = new BatchRegistration[terms];
    for (int t = 0; t < terms; t++) {
      BatchRegistration r = stated(value[t], variance[t], Math.sqrt(between), df);
      out[t] =
          new BatchRegistration(
              r.mean(), r.variance(), between, n > 1 ? Basis.PANELS : Basis.USUAL, r.df());
    }
    return out;
  }

  /** Inverse of the mean of 1 / variance over what prior and panels leave open. */
  private static double between(double[][] value, double[][] variance, double usual) {
    double[] at = new double[GRID];
    double[] w = new double[GRID];
    double top = Double.NEGATIVE_INFINITY;
    for (int g = 0; g < GRID; g++) {
      double b = usual * usual * Math.exp(2 * Math.log(SPAN) * (2.0 * g / (GRID - 1) - 1));
      at[g] = b;
      // Density of log b under the prior, times the restricted likelihood of every term.
      w[g] = -0.5 * PRIOR_DF * (Math.log(b) + usual * usual / b);
      for (int t = 0; t < value.length; t++) {
        double[] m = weighted(value[t], variance[t], b);
        w[g] += 0.5 * Math.log(m[1]);
        for (int p = 0; p < value[t].length; p++) {
          double v = variance[t][p] + b;
          double d = value[t][p] - m[0];
          w[g] -= 0.5 * (Math.log(v) + d * d / v);
        }
      }
      top = Math.max(top, w[g]);
    }
    double sum = 0;
    double inverse = 0;
    for (int g = 0; g < GRID; g++) {
      double v = Math.exp(w[g] - top);
      sum += v;
      inverse += v / at[g];
    }
    return sum / inverse;
  }

  /** Weighted mean of the panels and its variance. */
  private static double[] weighted(double[] value, double[] variance, double between) {
    double sw = 0;
    double swv = 0;
    for (int i = 0; i < value.length; i++) {
      double w = 1 / Math.max(variance[i] + between, 1e-30);
      sw += w;
      swv += w * value[i];
    }
    return new double[] {swv / sw, 1 / sw};
  }
}
