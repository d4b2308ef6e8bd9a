package org.padtrue.fit;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.FDistribution;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.DeviationTable;
import org.padtrue.panel.Factor;
import org.padtrue.quantity.Angles;

/**
 * Finds gross errors before anything is fitted.
 *
 * <p>A least-trimmed-squares affine transform and medians by type, nozzle, feeder, head and board
 * start it (up to a quarter of the placements may be wrong); then means and spreads of what is
 * clean judge every placement by its deletion residual, and the two take turns until nothing
 * changes. A type with one or two placements is judged against the spread between types. The limit
 * is an F quantile at 1 - {@value #FALSE_ALARM} / n, so that about one clean article in a hundred
 * loses a placement.
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
    @Nullable Factor part = t.factors().get("part");
    int[] zero = Turns.zeroOrientations(t, symmetry, part, notes);
    @Nullable Finding[] findings = new Finding[n];
    Turns.single(t, symmetry, part, zero, findings);
    if (n < 4) {
      return new ScreeningResult(zero, findings, Double.NaN, notes);
    }
    boolean[] out = new boolean[n];
    for (int i = 0; i < n; i++) {
      out[i] = findings[i] != null;
    }
    RobustLevels levels = new RobustLevels(t);
    levels.start(out);
    boolean[] far = new boolean[n];
    for (int round = 0; round < ROUNDS; round++) {
      boolean changed = judge(levels, out, findings, far);
      if (!changed) {
        break;
      }
      levels.refine(out);
    }
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
    rotations(t, symmetry, part, zero, findings);
    return new ScreeningResult(zero, findings, levels.sd(), notes);
  }

  private static boolean judge(
      RobustLevels levels, boolean[] out, @Nullable Finding[] findings, boolean[] far) {
    int n = out.length;
    double limit = limit(n, levels.degreesOfFreedom());
    boolean changed = false;
    for (int i = 0; i < n; i++) {
      boolean isFar = levels.distance2(i, out[i]) > limit;
      if (isFar != far[i]) {
        far[i] = isFar;
        changed = true;
      }
      out[i] = isFar || findings[i] != null;
    }
    return changed;
  }

  /** Limit of a squared standardised 2-vector. */
  private static double limit(int n, double df) {
    return 2
        * new FDistribution(null, 2, Math.max(2, df))
            .inverseCumulativeProbability(1 - FALSE_ALARM / Math.max(n, 2));
  }

  private static void rotations(
      DeviationTable t,
      int[] symmetry,
      @Nullable Factor part,
      int[] zero,
      @Nullable Finding[] findings) {
    int n = t.size();
    double[] r = new double[n];
    double[] clean = new double[n];
    int c = 0;
    for (int i = 0; i < n; i++) {
      int z = part == null || part.level()[i] < 0 ? 0 : zero[part.level()[i]];
      r[i] = Angles.wrap(t.dr()[i] - z, symmetry[i]);
      if (!Double.isNaN(r[i]) && findings[i] == null) {
        clean[c++] = r[i];
      }
    }
    if (c < 6) {
      return;
    }
    double centre = Order.median(clean, c);
    double[] typeMedian = typeMedians(part, r, findings, centre);
    double[] dev = new double[c];
    int k = 0;
    int groups = 1;
    for (int i = 0; i < n; i++) {
      if (!Double.isNaN(r[i]) && findings[i] == null) {
        int l = part == null ? -1 : part.level()[i];
        dev[k++] = r[i] - (l < 0 ? centre : typeMedian[l]);
      }
    }
    for (double m : typeMedian) {
      groups += m == centre ? 0 : 1;
    }
    // Medians eat degrees of freedom; a robust scale is worth about four tenths of them.
    double df = Math.max(2, c - groups);
    double scale = Order.scale(dev, c) * Math.sqrt(c / df);
    double wide = Order.scale(subtract(clean, c, centre), c);
    double cut =
        Math.sqrt(
            new FDistribution(null, 1, Math.max(2, 0.4 * df))
                .inverseCumulativeProbability(1 - FALSE_ALARM / n));
    for (int i = 0; i < n; i++) {
      if (Double.isNaN(r[i]) || findings[i] != null) {
        continue;
      }
      int l = part == null ? -1 : part.level()[i];
      boolean own = l >= 0 && typeMedian[l] != centre;
      double d = Math.abs(r[i] - (own ? typeMedian[l] : centre));
      double s = own ? scale : Math.hypot(scale, wide);
      if (s > 0 && d > cut * s && d > 0.5) {
        findings[i] = rotationFinding(t, i, r[i], own ? typeMedian[l] : centre, s);
      }
    }
  }

  private static Finding rotationFinding(
      DeviationTable t, int i, double r, double expected, double s) {
    String id = t.rows().get(i).id();
    double tenth = Math.abs(r / 10 - expected) / s;
    if (tenth < 1 && Math.abs(expected) > 3 * s) {
      return new Finding(
          Finding.Kind.DECIMAL_SLIP,
          String.format(
              java.util.Locale.ROOT,
              "%s: rotation is recorded %.2f degrees off where %.2f would fit: the decimal point"
                  + " looks one place off",
              id,
              r,
              r / 10));
    }
    return new Finding(
        Finding.Kind.GROSS,
        String.format(
            java.util.Locale.ROOT,
            "%s is turned %.2f degrees where its type shows %.2f: measure it again and look at the"
                + " part",
            id,
            r,
            expected));
  }

  private static double[] typeMedians(
      @Nullable Factor part, double[] r, @Nullable Finding[] findings, double centre) {
    if (part == null) {
      return new double[0];
    }
    int levels = part.levels().size();
    int[] size = new int[levels];
    for (int i = 0; i < r.length; i++) {
      if (part.level()[i] >= 0 && !Double.isNaN(r[i]) && findings[i] == null) {
        size[part.level()[i]]++;
      }
    }
    double[][] by = new double[levels][];
    int[] fill = new int[levels];
    for (int k = 0; k < levels; k++) {
      by[k] = new double[size[k]];
    }
    for (int i = 0; i < r.length; i++) {
      int k = part.level()[i];
      if (k >= 0 && !Double.isNaN(r[i]) && findings[i] == null) {
        by[k][fill[k]++] = r[i];
      }
    }
    double[] m = new double[levels];
    for (int k = 0; k < levels; k++) {
      m[k] = size[k] >= 3 ? Order.median(by[k], size[k]) : centre;
    }
    return m;
  }

  private static double[] subtract(double[] v, int n, double c) {
    double[] w = new double[n];
    for (int i = 0; i < n; i++) {
      w[i] = v[i] - c;
    }
    return w;
  }
}
