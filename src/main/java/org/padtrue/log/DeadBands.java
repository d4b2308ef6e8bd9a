package org.padtrue.log;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.LoggedParameter;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;

/**
 * Dead bands of the job travel with each article through the log, and become the limits that
 * forecasts run into: beyond them the next trim is worth entering. Those of the last article hold.
 */
final class DeadBands {
  private static final String MM = "deadBand";
  private static final String DEG = "deadBandRotation";
  private static final String REACH = "reach";

  private DeadBands() {}

  static List<LoggedParameter> parameters(ArticleTerms.Bands b) {
    return List.of(
        new LoggedParameter("", MM, "mm", b.mm(), Double.NaN),
        new LoggedParameter("", DEG, "deg", b.deg(), Double.NaN),
        new LoggedParameter("", REACH, "mm", b.reachMm(), Double.NaN));
  }

  /** Limits by series name, "part * x" for all levels; empty when the log has none. */
  static Map<String, Double> limits(List<LoggedSeries> logged) {
    Map<String, Double> last = new HashMap<>();
    for (LoggedSeries s : logged) {
      if (List.of(MM, DEG, REACH).contains(s.name()) && !s.points().isEmpty()) {
        LoggedPoint p = s.points().get(s.points().size() - 1);
        last.put(s.name(), p.value());
      }
    }
    Double mm = last.get(MM);
    Double deg = last.get(DEG);
    Double reach = last.get(REACH);
    if (mm == null || deg == null || reach == null || !(reach > 0)) {
      return Map.of();
    }
    Map<String, Double> limits = new HashMap<>();
    for (FixedTerm t : FixedTerm.values()) {
      switch (t.family()) {
        case SHIFT -> limits.put(t.series(), mm);
        case ROTATION -> limits.put(t.series(), Math.toDegrees(mm / reach));
        case SCALE -> limits.put(t.series(), (t == FixedTerm.SQUARENESS ? 1e3 : 1e6) * mm / reach);
        case ROTATION_ZERO -> limits.put(t.series(), deg);
        default -> {}
      }
    }
    for (Factor factor : Factor.values()) {
      limits.put(LevelTerm.every(factor, OffsetAxis.X).series(), mm);
      limits.put(LevelTerm.every(factor, OffsetAxis.Y).series(), mm);
      limits.put(LevelTerm.every(factor, OffsetAxis.ROTATION).series(), deg);
    }
    return limits;
  }
}
