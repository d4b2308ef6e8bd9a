package org.padtrue.report.plot;

import java.util.List;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.report.plot.ink.Range;

/**
 * How a series is drawn: mm become micrometres.
 *
 * @param factor drawn over stored
 * @param unit as written on an axis
 */
record SeriesScale(double factor, String unit) {
  static SeriesScale of(SeriesDrift d) {
    return switch (d.series().unit()) {
      case "mm" -> new SeriesScale(1000, "\u00b5m");
      case "deg" -> new SeriesScale(1, "degrees");
      default -> new SeriesScale(1, d.series().unit());
    };
  }

  /** Range of values with air, cut where a few points are far out. */
  static Range range(List<Double> values) {
    double[] v =
        values.stream()
            .mapToDouble(Double::doubleValue)
            .filter(Double::isFinite)
            .sorted()
            .toArray();
    if (v.length == 0) {
      return new Range(-1, 1);
    }
    double low = v[0];
    double high = v[v.length - 1];
    double air = high > low ? 0.08 * (high - low) : Math.max(1e-6, 0.1 * Math.abs(high));
    return new Range(low - air, high + air);
  }

  /** Level of each point: running median of the series with temperature and warm-up taken off. */
  static double[] level(SeriesDrift d) {
    int n = d.adjusted().size();
    double[] level = new double[n];
    for (int i = 0; i < n; i++) {
      int from = Math.max(0, i - 8);
      int to = Math.min(n, i + 9);
      double[] window =
          d.adjusted().subList(from, to).stream()
              .mapToDouble(Double::doubleValue)
              .sorted()
              .toArray();
      int m = window.length;
      level[i] = m % 2 == 1 ? window[m / 2] : 0.5 * (window[m / 2 - 1] + window[m / 2]);
    }
    return level;
  }
}
