package org.padtrue.drift.chart;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;

/**
 * How false alarms are held over everything that a drift report looks at.
 *
 * <p>Half of {@code alpha} goes to the charts: limits are widened so that each chart of each series
 * calls falsely, anywhere in the whole history, with probability 1 - (1 - alpha/2)^(1/charts)
 * (Sidak), the uncertainty of centre and spread from the base period included. The other half goes
 * to the tests (trend, change, temperature, warm-up, steps at known events): their p values are
 * adjusted together by Holm's method.
 *
 * @param alpha chance of any false alarm in the report when nothing drifts
 * @param series how many series
 * @param charts how many charts
 * @param tests how many p values
 * @param perChart chance of a false alarm for one chart
 * @param averageRunLength articles until the first false alarm among all charts together, on
 *     average, in control, centres and spreads known
 */
public record FamilyControl(
    double alpha,
    int series,
    int charts,
    int tests,
    double perChart,
    double averageRunLength,
    double averageRunLengthKnown) {

  /** Share of alpha for charts, and for tests. */
  public double half() {
    return 0.5 * alpha;
  }

  /** Chance of a false alarm that one chart of a family may have. */
  public static double perChart(double alpha, int charts) {
    return -Math.expm1(Math.log1p(-0.5 * alpha) / Math.max(1, charts));
  }

  /** What a reader should know, one sentence. */
  public String sentence() {
    if (charts == 0) {
      return "No series has articles enough for control limits yet.";
    }
    return String.format(
        Locale.ROOT,
        "%d series are watched by %d charts and %d tests; limits and p values are set so that the"
            + " chance of any false alarm in this report is at most %.0f %% when nothing drifts"
            + " (Sidak for charts, Holm for tests). In control one chart or another calls falsely"
            + " about once in %,.0f articles (in %,.0f if the base periods had told centre and"
            + " spread exactly).",
        series,
        charts,
        tests,
        100 * alpha,
        three(averageRunLength),
        three(averageRunLengthKnown));
  }

  /** Three digits: no run length is known better. */
  private static double three(double v) {
    return Double.isFinite(v) ? new BigDecimal(v).round(new MathContext(3)).doubleValue() : v;
  }
}
