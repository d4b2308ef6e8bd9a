package org.padtrue.drift;

import java.util.List;
import java.util.Map;
import org.padtrue.drift.hint.Expansion;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.panel.term.LevelTerm;

/**
 * What is asked of a drift analysis.
 *
 * @param alpha chance of any false alarm in the report when nothing drifts; default 0.05
 * @param basePoints articles at the beginning that limits come from; 0 takes a third, at least 20
 *     and at most 100
 * @param lambda weight of a new point in the EWMA; default 0.2
 * @param cusumK allowance of the CUSUM in standard deviations; default 1, not the usual 0.5: the
 *     centre of a base of some forty articles is itself uncertain by a sixth of a standard
 *     deviation, which a small allowance would add up
 * @param limits size of the limit of a series by name (dead band or tolerance share, unit of the
 *     series) for forecasts and warm-up; "part * x" stands for all levels; series without one get
 *     no forecast
 * @param materials expansion coefficients to compare with
 */
public record DriftOptions(
    double alpha,
    int basePoints,
    double lambda,
    double cusumK,
    Map<String, Double> limits,
    List<Expansion> materials) {
  public DriftOptions {
    if (!(alpha > 0 && alpha < 1)) {
      throw new IllegalArgumentException("alpha = " + alpha + "; expected 0 < alpha < 1");
    }
    if (basePoints < 0) {
      throw new IllegalArgumentException("basePoints = " + basePoints + "; expected 0 or more");
    }
    limits = Map.copyOf(limits);
    materials = List.copyOf(materials);
  }

  /** Five percent over the family, base chosen by length, no limits, the bundled materials. */
  public static DriftOptions withDefaults() {
    return new DriftOptions(0.05, 0, 0.2, 1, Map.of(), Expansion.table());
  }

  /** The same with limits by series. */
  public DriftOptions withLimits(Map<String, Double> bySeries) {
    return new DriftOptions(alpha, basePoints, lambda, cusumK, bySeries, materials);
  }

  /** The same with a base of so many articles. */
  public DriftOptions withBasePoints(int count) {
    return new DriftOptions(alpha, count, lambda, cusumK, limits, materials);
  }

  /** Limit of a series; NaN when none was given. */
  double limit(DriftSeries s) {
    Double own = limits.get(s.name());
    LevelTerm t = LevelTerm.parse(s.name()).orElse(null);
    if (own == null && t != null) {
      own = limits.get(LevelTerm.every(t.factor(), t.axis()).series());
    }
    return own == null ? Double.NaN : own;
  }

  /** Points of the base period of a series of n. */
  int base(int n) {
    int wanted = basePoints > 0 ? basePoints : Math.min(50, Math.max(20, n / 2));
    return Math.min(n, wanted);
  }
}
