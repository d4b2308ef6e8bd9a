package org.padtrue.plan.model;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The families in which the terms of a plan will be tested, and what that means for one term.
 *
 * @param size offset over standard error at which a term of a factor is found nine times in ten
 */
public record MeasuringPlanFamilies(Map<MeasuringPlanFactor, Double> size) {
  /** Offsets of this many times the scatter of one placement ought to be found. */
  public static final double MATTERS = 3;

  /** Placements of every level that a plan has at least. */
  private static final int LEAST = 3;

  private static final int SHIFT = 2;
  private static final int SCALE = 3;

  public static MeasuringPlanFamilies of(
      MeasuringPlanModel position, List<MeasuringPlanTerm> terms, boolean rotations) {
    Map<MeasuringPlanFactor, Integer> count = new TreeMap<>();
    for (MeasuringPlanTerm t : terms) {
      count.merge(position.columns().get(t.column()).factor(), 1, Integer::sum);
    }
    int families = rotations ? 1 : 0;
    for (MeasuringPlanFactor f : count.keySet()) {
      families += f.random() ? rotations ? 3 : 2 : 1;
    }
    // The three of one test count as one family.
    families -= count.containsKey(MeasuringPlanFactor.SCALE_X) ? 2 : 0;
    Map<MeasuringPlanFactor, Double> size = new TreeMap<>();
    for (MeasuringPlanFactor f : MeasuringPlanFactor.values()) {
      int n = count.getOrDefault(f, 1);
      int together =
          switch (f.kind()) {
            case SHIFT, COMMON -> SHIFT;
            case ROTATION -> 1;
            case SCALE_X, SCALE_Y, SQUARENESS -> SCALE;
            case ARRAY -> n;
            default -> Math.max(1, n / 2 - 1);
          };
      size.put(f, MeasuringPlanPower.size(together, Math.max(1, families)));
    }
    return new MeasuringPlanFamilies(Map.copyOf(size));
  }

  public double of(MeasuringPlanFactor f) {
    return size.getOrDefault(f, Double.NaN);
  }

  /** Placements of each level of a factor with which an offset that matters is found. */
  public int each(MeasuringPlanFactor f) {
    double n = of(f) / MATTERS;
    return Math.max(LEAST, (int) Math.ceil(n * n));
  }
}
