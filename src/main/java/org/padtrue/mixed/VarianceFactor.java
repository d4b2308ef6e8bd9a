package org.padtrue.mixed;

import java.util.HashMap;
import java.util.Map;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.padtrue.numeric.Tails;

/**
 * What a true variance may be in units of its estimate, df / chi-square(df), for many draws: the
 * logarithm between quantiles at a few normal scores, to a thousandth. Not for several threads.
 */
public final class VarianceFactor {
  private static final int KNOTS = 13;
  private static final double FARTHEST = 3.1;
  private static final double TAIL = 1e-3;
  private static final double WELL_KNOWN = 1e5;
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private final Map<Double, PolynomialSplineFunction> splines = new HashMap<>();

  /**
   * The factor.
   *
   * @param u probability of a chi-square below, 0 to 1; taken no nearer to either than 0.001
   * @param df degrees of freedom; 1 is returned where there are none or so many that it is known
   */
  public double at(double u, double df) {
    if (!(df > 0 && df < WELL_KNOWN)) {
      return 1;
    }
    double score = NORMAL.inverseCumulativeProbability(Math.min(1 - TAIL, Math.max(TAIL, u)));
    return Math.exp(splines.computeIfAbsent(df, VarianceFactor::spline).value(score));
  }

  private static PolynomialSplineFunction spline(double df) {
    double[] z = new double[KNOTS];
    double[] log = new double[KNOTS];
    for (int i = 0; i < KNOTS; i++) {
      z[i] = -FARTHEST + 2 * FARTHEST * i / (KNOTS - 1);
      log[i] = Math.log(df / Tails.chiSquareQuantile(NORMAL.cumulativeProbability(z[i]), df));
    }
    return new SplineInterpolator().interpolate(z, log);
  }
}
