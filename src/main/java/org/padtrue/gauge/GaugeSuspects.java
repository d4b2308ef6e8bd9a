package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Readings that stand far off the others of the same placement and person: a transcription error
 * spoils a small study. Far is five robust standard deviations (1.4826 times the median of the
 * sizes). Named, never taken out.
 */
final class GaugeSuspects {
  private static final double FAR = 5;
  private static final double MAD_TO_SD = 1.4826;
  private static final int LEAST = 10;

  private GaugeSuspects() {}

  static List<String> of(List<GaugeAxis> axes, List<GaugeSeries> series) {
    List<String> all = new ArrayList<>();
    for (int a = 0; a < axes.size(); a++) {
      all.addAll(of(axes.get(a), series.get(a)));
    }
    return all;
  }

  private static List<String> of(GaugeAxis axis, GaugeSeries s) {
    double[] off = new double[s.y().length];
    Arrays.fill(off, Double.NaN);
    for (List<Integer> cell : s.byCell()) {
      double mean = cell.stream().mapToDouble(i -> s.y()[i]).average().orElse(0);
      double r = cell.size();
      for (int i : cell) {
        // Scaled so that all cells' residuals have the standard deviation of one reading.
        off[i] = r > 1 ? (s.y()[i] - mean) * Math.sqrt(r / (r - 1)) : Double.NaN;
      }
    }
    double[] sizes =
        Arrays.stream(off).filter(v -> !Double.isNaN(v)).map(Math::abs).sorted().toArray();
    List<String> found = new ArrayList<>();
    if (sizes.length < LEAST) {
      return found;
    }
    double sd = MAD_TO_SD * sizes[sizes.length / 2];
    for (int i = 0; i < off.length; i++) {
      if (sd > 0 && Math.abs(off[i]) > FAR * sd) {
        GaugeReading r = s.readings().get(i);
        found.add(
            String.format(
                Locale.ROOT,
                "%s of '%s', operator '%s', trial '%s'%s is %.3f %s, far off the other readings"
                    + " of that placement and person; check for a transcription error.",
                axis.axis(),
                r.ref(),
                r.operator(),
                r.trial(),
                r.line() > 0 ? " (line " + r.line() + ")" : "",
                s.y()[i],
                axis.unit()));
      }
    }
    return found;
  }
}
