package org.padtrue.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.IntFunction;
import org.padtrue.history.LoggedParameter;
import org.padtrue.numeric.NormalEquations;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;

/**
 * Differences between the levels of a factor that an article determines, whatever ties a level of
 * it to other terms: where nozzle N3 alone places the ICs, neither can be told from the other, but
 * N1 minus N2 can.
 *
 * <p>Of few levels every pair; of many each against the most placed level that it can be compared
 * with.
 */
final class LevelDifferences {
  /** Up to so many levels every pair is logged. */
  private static final int ALL_PAIRS = 6;

  private LevelDifferences() {}

  /**
   * The differences.
   *
   * @param f the factor
   * @param leftOut names of part types whose offset is relative to a taught sample
   * @param axis what the offsets move
   * @param sd standard deviation of unit weight
   * @param s the fit
   * @param column coefficients of a level's offset
   */
  static List<LoggedParameter> of(
      LevelColumn f,
      Set<String> leftOut,
      OffsetAxis axis,
      double sd,
      NormalEquations.Tied s,
      IntFunction<double[]> column) {
    int[] count = new int[f.levels().size()];
    for (int l : f.level()) {
      if (l >= 0) {
        count[l]++;
      }
    }
    List<Integer> levels = new ArrayList<>();
    for (int l = 0; l < count.length; l++) {
      if (count[l] > 0 && !(f.factor() == Factor.PART && leftOut.contains(f.levels().get(l)))) {
        levels.add(l);
      }
    }
    List<LoggedParameter> out = new ArrayList<>();
    if (levels.size() <= ALL_PAIRS) {
      for (int a = 0; a < levels.size(); a++) {
        for (int b = a + 1; b < levels.size(); b++) {
          add(out, f, levels.get(a), levels.get(b), axis, sd, s, column);
        }
      }
      return out;
    }
    levels.sort((a, b) -> count[a] != count[b] ? count[b] - count[a] : a - b);
    boolean[] compared = new boolean[count.length];
    for (int r = 0; r < levels.size(); r++) {
      int reference = levels.get(r);
      for (int l :
          compared[reference] ? List.<Integer>of() : levels.subList(r + 1, levels.size())) {
        if (!compared[l] && add(out, f, l, reference, axis, sd, s, column)) {
          compared[l] = true;
        }
      }
    }
    return out;
  }

  private static boolean add(
      List<LoggedParameter> out,
      LevelColumn f,
      int plus,
      int minus,
      OffsetAxis axis,
      double sd,
      NormalEquations.Tied s,
      IntFunction<double[]> column) {
    double[] c = column.apply(plus).clone();
    double[] other = column.apply(minus);
    Arrays.setAll(c, i -> c[i] - other[i]);
    double v = s.variance(c);
    if (!Double.isFinite(v) || !(v > 0) || !Double.isFinite(s.value(c))) {
      return false;
    }
    LevelTerm term = LevelTerm.difference(f.named(plus), f.named(minus), axis);
    out.add(LoggedParameter.of(term, s.value(c), sd * Math.sqrt(v)));
    return true;
  }
}
