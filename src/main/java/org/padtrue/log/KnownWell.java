package org.padtrue.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;
import org.padtrue.panel.Level;
import org.padtrue.panel.term.LevelTerm;

/**
 * Which differences between levels are watched beside the levels themselves: those that are known
 * clearly better than either level alone, because something ties the levels to other terms. Where
 * nothing is tied none is, and no more series share the false alarms.
 */
final class KnownWell {
  /** A difference of two levels that nothing ties is known 1.4 times worse than either. */
  private static final double CLEARLY = 0.7;

  private KnownWell() {}

  /** The series without differences that tell nothing more. */
  static List<LoggedSeries> of(List<LoggedSeries> all) {
    Map<String, Map<Long, Double>> errors = new HashMap<>();
    for (LoggedSeries s : all) {
      Map<Long, Double> of = new HashMap<>();
      s.points().forEach(p -> of.put(p.articleId(), p.standardError()));
      errors.put(s.name(), of);
    }
    List<LoggedSeries> kept = new ArrayList<>();
    for (LoggedSeries s : all) {
      LevelTerm t = LevelTerm.parse(s.name()).orElse(null);
      if (t == null || t.minus() == null || clearer(s, t, t.minus(), errors)) {
        kept.add(s);
      }
    }
    return kept;
  }

  private static boolean clearer(
      LoggedSeries s, LevelTerm t, Level minus, Map<String, Map<Long, Double>> errors) {
    List<Map<Long, Double>> single = new ArrayList<>();
    for (Level level : List.of(t.level(), minus)) {
      single.add(errors.getOrDefault(LevelTerm.of(level, t.axis()).series(), Map.of()));
    }
    double[] ratio = new double[s.points().size()];
    for (int i = 0; i < ratio.length; i++) {
      LoggedPoint p = s.points().get(i);
      // a level that the article does not tell alone is infinitely worse known
      double best = Double.POSITIVE_INFINITY;
      for (Map<Long, Double> e : single) {
        best = Math.min(best, e.getOrDefault(p.articleId(), Double.POSITIVE_INFINITY));
      }
      ratio[i] = p.standardError() / best;
    }
    Arrays.sort(ratio);
    return ratio.length > 0 && ratio[ratio.length / 2] < CLEARLY;
  }
}
