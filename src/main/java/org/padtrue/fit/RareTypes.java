package org.padtrue.fit;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * Types of which one or two placements were measured, all far from what the other types leave:
 * nobody can say whether the type is off or the placements are wrong, so they are asked about.
 */
final class RareTypes {
  private RareTypes() {}

  /**
   * Takes plain gross errors back where they are all that is known of a type and agree; what looks
   * like an error of recording stays one.
   */
  static void apart(
      DeviationTable t,
      LevelColumn part,
      RobustLevels levels,
      boolean[] far,
      double[] limit,
      @Nullable Finding[] findings,
      List<Apart> apart) {
    List<List<Integer>> rows = new ArrayList<>();
    part.levels().forEach(l -> rows.add(new ArrayList<>()));
    for (int i = 0; i < far.length; i++) {
      Finding f = findings[i];
      if (part.level()[i] >= 0 && (f == null || f.kind() == Finding.Kind.GROSS)) {
        rows.get(part.level()[i]).add(i);
      }
    }
    double[] cos = t.cosTheta();
    double[] sin = t.sinTheta();
    for (int k = 0; k < rows.size(); k++) {
      List<Integer> of = rows.get(k);
      if (of.isEmpty() || of.size() >= Apart.ENOUGH || !of.stream().allMatch(i -> far[i])) {
        continue;
      }
      double x = 0;
      double y = 0;
      double[][] own = new double[of.size()][];
      for (int j = 0; j < own.length; j++) {
        int i = of.get(j);
        double[] d = levels.deletion(i, true);
        own[j] = new double[] {cos[i] * d[0] + sin[i] * d[1], -sin[i] * d[0] + cos[i] * d[1]};
        x += own[j][0] / own.length;
        y += own[j][1] / own.length;
      }
      boolean agree = true;
      for (int j = 0; j < own.length; j++) {
        double s = levels.sd(of.get(j));
        double d2 = (own[j][0] - x) * (own[j][0] - x) + (own[j][1] - y) * (own[j][1] - y);
        // Half of a difference of two rows: half the variance of one.
        agree &= d2 <= 0.5 * limit[of.get(j)] * s * s;
      }
      if (agree) {
        of.forEach(i -> findings[i] = null);
        apart.add(
            new Apart(
                part.factor(), part.levels().get(k), of.size(), true, false, x, y, Double.NaN));
      }
    }
  }
}
