package org.padtrue.report.words;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.next.TightestTolerance;
import org.padtrue.gauge.GaugeVerdict;
import org.padtrue.panel.Tolerance;

/**
 * Is the measurement system acceptable, by the uncertainty that the job states?
 *
 * <p>Six of its standard deviations against the width of the tightest tolerance, as a gauge study
 * does (AIAG, Measurement Systems Analysis); without a tolerance its share of the deviations seen.
 *
 * @param verdict acceptable, conditionally, not, or not judged
 * @param sentence for people, without a full stop
 */
public record MeasuringVerdict(GaugeVerdict verdict, String sentence) {
  private static final double SIX_SIGMA = 6;

  public static MeasuringVerdict of(FirstArticleResult r) {
    double u = r.scatter().measuringSd();
    double residual = r.scatter().residualSd();
    if (!(u >= 0)) {
      return new MeasuringVerdict(
          GaugeVerdict.NOT_JUDGED,
          "measurement system not judged: the job states no measurement.uncertainty, so scatter"
              + " includes what measuring adds; a gauge study tells");
    }
    if (residual > 0 && u > 1.1 * residual) {
      return new MeasuringVerdict(
          GaugeVerdict.NOT_JUDGED,
          "measurement system not judged: the stated uncertainty of "
              + Show.um(u)
              + " um is more than all the scatter seen ("
              + Show.um(residual)
              + " um), so it is stated too large; a gauge study tells");
    }
    TightestTolerance t = TightestTolerance.of(r.job());
    String part = t == null ? "" : tightest(t);
    double tolerance = t == null ? Double.NaN : least(t.tolerance());
    double share =
        Double.isNaN(tolerance)
            ? u / (r.prediction().seen() / Math.sqrt(2))
            : SIX_SIGMA * u / (2 * tolerance);
    GaugeVerdict v = GaugeVerdict.of(share);
    return new MeasuringVerdict(v, sentence(v, u, residual, share, tolerance, part));
  }

  private static String sentence(
      GaugeVerdict v, double u, double residual, double share, double tolerance, String part) {
    StringBuilder b = new StringBuilder("measurement system ").append(v.words());
    if (v == GaugeVerdict.NOT_JUDGED) {
      return b.toString();
    }
    if (Double.isNaN(tolerance)) {
      b.append(": its standard deviation of ").append(Show.um(u)).append(" um is ");
      b.append(Show.percent(share)).append(" of that of the deviations seen");
    } else {
      b.append(": six of its standard deviations of ").append(Show.um(u)).append(" um take ");
      b.append(Show.percent(share)).append(" of the tightest tolerance, ");
      b.append(Show.short0(1000 * tolerance, 1)).append(" um to either side (part type ");
      b.append(part).append(')');
    }
    b.append("; below 10 % acceptable, above 30 % not (AIAG MSA)");
    if (residual > 0) {
      double variance = Math.min(1, u * u / (residual * residual));
      b.append("; it makes ").append(Show.percent(variance)).append(" of the variance left by");
      b.append(" the fit");
    }
    return b.toString();
  }

  private static double least(Tolerance t) {
    return Double.isNaN(t.xMm())
        ? t.yMm()
        : Double.isNaN(t.yMm()) ? t.xMm() : Math.min(t.xMm(), t.yMm());
  }

  private static String tightest(TightestTolerance t) {
    @Nullable String x = t.parts().get("x");
    @Nullable String y = t.parts().get("y");
    boolean first = y == null || t.tolerance().xMm() <= t.tolerance().yMm();
    return String.format(Locale.ROOT, "%s", first && x != null ? x : y == null ? "" : y);
  }
}
