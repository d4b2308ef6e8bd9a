package org.padtrue.drift.series;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;

/**
 * One term over time.
 *
 * @param name shiftX, scaleXPpm, scatterY, or factor, level and axis: "part R0603 x"
 * @param unit mm, deg, ppm or mrad
 * @param points in order of time; points without a finite value or state are left out
 */
public record DriftSeries(String name, String unit, List<SeriesPoint> points) {
  public DriftSeries {
    List<SeriesPoint> kept = new ArrayList<>();
    for (SeriesPoint p : points) {
      if (Double.isFinite(p.value()) && Double.isFinite(p.state())) {
        kept.add(p);
      }
    }
    kept.sort(Comparator.comparing(SeriesPoint::at));
    points = List.copyOf(kept);
  }

  /** The term of a level; null for one of the panel. */
  private @Nullable LevelTerm of() {
    return LevelTerm.parse(name).orElse(null);
  }

  /** The factor; null for a term of the panel. */
  public @Nullable Factor factor() {
    LevelTerm t = of();
    return t == null ? null : t.factor();
  }

  /** Level of the factor, "N1 minus N2" for a difference; empty for a term of the panel. */
  public String level() {
    LevelTerm t = of();
    return t == null ? "" : t.levels();
  }

  /** What a tied level cannot be told from, "nozzle N3"; empty for others. */
  public String tiedTo() {
    LevelTerm t = of();
    return t == null || t.tiedTo() == null ? "" : t.tiedTo().toString();
  }

  /** True when it is the difference of two levels. */
  public boolean isDifference() {
    LevelTerm t = of();
    return t != null && t.minus() != null;
  }

  /** The level whose offset counts as it is: the only one, or the first of a difference. */
  public String plusLevel() {
    LevelTerm t = of();
    return t == null ? "" : t.level().name();
  }

  /** The level that a difference takes off; empty for a single level. */
  public String minusLevel() {
    LevelTerm t = of();
    return t == null || t.minus() == null ? "" : t.minus().name();
  }

  /** What a factor's term moves; null for a term of the panel. */
  public @Nullable OffsetAxis axis() {
    LevelTerm t = of();
    return t == null ? null : t.axis();
  }
}
