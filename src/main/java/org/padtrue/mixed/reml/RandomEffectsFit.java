package org.padtrue.mixed.reml;

/**
 * A fitted mixed model.
 *
 * <p>Estimates are in the units of the caller's columns and response; theta and deviance are pure
 * numbers.
 *
 * @param theta relative standard deviations (random SD over residual SD), one per variance
 *     parameter; exactly 0 on the boundary
 * @param random predicted random effects (BLUPs), one per random column
 * @param fixed fixed coefficients; 0 for a column that depends on earlier ones
 * @param rss penalised residual sum of squares
 * @param residualVariance residual variance for weight 1
 * @param deviance criterion at the optimum
 * @param rows number of rows
 * @param rank number of independent fixed columns
 * @param inverse times the residual variance: covariance of (random prediction errors, fixed
 *     estimates) given theta; NaN in rows of dependent columns
 */
public record RandomEffectsFit(
    double[] theta,
    double[] random,
    double[] fixed,
    double rss,
    double residualVariance,
    double deviance,
    int rows,
    int rank,
    double[][] inverse) {

  /** Residual standard deviation for weight 1. */
  public double residualSd() {
    return Math.sqrt(residualVariance);
  }

  /** Standard deviation of a variance parameter. */
  public double sd(int parameter) {
    return theta[parameter] * residualSd();
  }

  /** Plug-in covariance of two coefficients: random columns first, then fixed. */
  public double covariance(int i, int j) {
    return residualVariance * inverse[i][j];
  }
}
