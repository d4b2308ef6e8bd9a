package org.padtrue.drift.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Individuals and moving-range charts whose limits follow each point's own uncertainty
 * (NIST/SEMATECH e-Handbook 6.3.2.2 when all points are exact).
 *
 * <p>Values are in the unit of the series; the limit is a pure number.
 */
public final class IndividualsChart {
  private static final ControlConstants TWO = ControlConstants.of(2);

  private IndividualsChart() {}

  /**
   * Individuals chart.
   *
   * @param x values
   * @param se their standard errors
   * @param base base period
   * @param limit half width in standard deviations of a point; 3 is the usual one
   */
  public static ControlChart of(double[] x, double[] se, BaseEstimate base, double limit) {
    List<ChartPoint> points = new ArrayList<>();
    for (int i = 0; i < x.length; i++) {
      points.add(ChartPoint.of(i, x[i], base.centre(), limit * base.sigma(se[i])));
    }
    return new ControlChart("individuals", points);
  }

  /**
   * Moving-range chart; its upper limit is D4 times the mean range when all points are exact. The
   * first point has no range and is absent.
   */
  public static ControlChart movingRanges(
      double[] x, double[] se, BaseEstimate base, double limit) {
    List<ChartPoint> points = new ArrayList<>();
    for (int i = 1; i < x.length; i++) {
      double sigma = Math.hypot(base.sigma(se[i]), base.sigma(se[i - 1])) / Math.sqrt(2);
      double centre = TWO.d2() * sigma;
      points.add(
          ChartPoint.between(
              i, Math.abs(x[i] - x[i - 1]), centre, 0, centre + limit * TWO.d3() * sigma));
    }
    return new ControlChart("movingRange", points);
  }
}
