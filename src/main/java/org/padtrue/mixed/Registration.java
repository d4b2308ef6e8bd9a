package org.padtrue.mixed;

/**
 * What the panels measured say about the batch: one value of a registration term, and how much it
 * varies from panel to panel.
 *
 * @param mean estimate for the batch
 * @param variance of that estimate, panel-to-panel variance included
 * @param between variance from panel to panel; NaN when neither given nor estimable
 * @param given true when the job states it
 * @param df degrees of freedom of {@code variance}
 */
public record Registration(double mean, double variance, double between, boolean given, double df) {

  /**
   * Combines panels.
   *
   * @param value estimate of each panel
   * @param variance its squared standard error
   * @param repeatability stated standard deviation from panel to panel; NaN unknown
   * @param df degrees of freedom of one panel's standard error
   */
  public static Registration of(
      double[] value, double[] variance, double repeatability, double df) {
    int n = value.length;
    boolean given = !Double.isNaN(repeatability);
    double between = given ? repeatability * repeatability : Double.NaN;
    double freedom = df;
    if (!given && n > 1) {
      between = derSimonianLaird(value, variance);
      freedom = n - 1;
    }
    double b = Double.isNaN(between) ? 0 : between;
    double sw = 0;
    double swv = 0;
    for (int i = 0; i < n; i++) {
      double w = 1 / Math.max(variance[i] + b, 1e-30);
      sw += w;
      swv += w * value[i];
    }
    double var = 1 / sw;
    if (given && b > 0) {
      // The stated part is known: only the measured share has few degrees of freedom.
      double share = Math.max(1e-12, 1 - b / (n * var));
      freedom = df / (share * share);
    }
    return new Registration(swv / sw, var, between, given, freedom);
  }

  /** DerSimonian and Laird (1986), Control. Clin. Trials 7: moment estimate of between variance. */
  private static double derSimonianLaird(double[] value, double[] variance) {
    double sw = 0;
    double sw2 = 0;
    double swv = 0;
    int n = value.length;
    for (int i = 0; i < n; i++) {
      double w = 1 / Math.max(variance[i], 1e-30);
      sw += w;
      sw2 += w * w;
      swv += w * value[i];
    }
    double mean = swv / sw;
    double q = 0;
    for (int i = 0; i < n; i++) {
      q += (value[i] - mean) * (value[i] - mean) / Math.max(variance[i], 1e-30);
    }
    return Math.max(0, (q - (n - 1)) / (sw - sw2 / sw));
  }
}
