package org.padtrue.fit;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.FDistribution;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * Finds gross errors before anything is fitted, in two levels: placements against their own type,
 * then types against each other.
 *
 * <p>A least-trimmed-squares affine transform and medians by type, nozzle, feeder, head and board
 * start it (up to a quarter of the placements may be wrong); then means and spreads of what is
 * clean judge every placement by its deletion residual, and the two take turns until nothing
 * changes. What most of three placements and more of a level agree on is systematic, however large;
 * levels that stand far from the others are named in {@link ScreeningResult#apart}. A type with one
 * or two placements is judged against the spread between types: far off it is neither gross nor
 * systematic but has to be asked about. The limit is an F quantile at 1 - {@value #FALSE_ALARM} /
 * n, by the scatter of the placement's own type, so that about one clean article in a hundred loses
 * a placement.
 */
public final class Screening {
  /** Chance that a clean article loses a placement. */
  static final double FALSE_ALARM = 0.01;

  private static final int ROUNDS = 12;

  private Screening() {}

  /**
   * Screens.
   *
   * @param t the measured placements
   * @param symmetry symmetry of each row's part type: 1, 2 or 4
   * @param poses true when poses were recorded, false for deviations
   */
  public static ScreeningResult screen(DeviationTable t, int[] symmetry, boolean poses) {
    int n = t.size();
    List<String> notes = new ArrayList<>();
    @Nullable LevelColumn part = t.factors().get(Factor.PART);
    int[] zero = Turns.zeroOrientations(t, symmetry, part, notes);
    @Nullable Finding[] findings = new Finding[n];
    Turns.single(t, symmetry, part, zero, findings);
    if (n < 4) {
      return new ScreeningResult(zero, findings, Double.NaN, notes, List.of());
    }
    boolean[] out = new boolean[n];
    for (int i = 0; i < n; i++) {
      out[i] = findings[i] != null;
    }
    RobustLevels levels = new RobustLevels(t);
    levels.start(out);
    boolean[] far = new boolean[n];
    double[] limit = new double[n];
    for (int round = 0; round < ROUNDS; round++) {
      if (!judge(levels, round == 0, out, findings, far, limit)) {
        break;
      }
      levels.refine(out);
    }
    List<Apart> apart = new ArrayList<>(levels.apart(FALSE_ALARM));
    SlipKinds kinds = new SlipKinds(t, levels, poses);
    for (int i = 0; i < n; i++) {
      if (!far[i]) {
        continue;
      }
      Finding position = kinds.explain(i, far);
      // Two refs recorded for each other carry their rotations with them: no part is turned.
      if (findings[i] == null || position.kind() == Finding.Kind.SWAPPED_REFS) {
        findings[i] = position;
      }
    }
    if (part != null) {
      RareTypes.apart(t, part, levels, far, limit, findings, apart);
    }
    RotationScreening.screen(t, symmetry, part, zero, findings, apart);
    return new ScreeningResult(zero, findings, levels.sd(), notes, apart);
  }

  private static boolean judge(
      RobustLevels levels,
      boolean start,
      boolean[] out,
      @Nullable Finding[] findings,
      boolean[] far,
      double[] limit) {
    int n = out.length;
    boolean changed = start;
    java.util.Map<Double, Double> limits = new java.util.HashMap<>();
    for (int i = 0; i < n; i++) {
      limit[i] = limits.computeIfAbsent(levels.degreesOfFreedom(i), df -> limit(n, 2, df));
      boolean isFar = (start ? levels.startDistance2(i) : levels.distance2(i, out[i])) > limit[i];
      if (isFar != far[i]) {
        far[i] = isFar;
        changed = true;
      }
      out[i] = isFar || findings[i] != null;
    }
    return changed;
  }

  /** Limit of a squared standardised vector of {@code components}. */
  static double limit(int n, int components, double df) {
    return components
        * new FDistribution(null, components, Math.max(2, df))
            .inverseCumulativeProbability(1 - FALSE_ALARM / Math.max(n, 2));
  }
}
