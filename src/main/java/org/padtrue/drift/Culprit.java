package org.padtrue.drift;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;

/**
 * Which level has moved, from the differences of levels that moved and those that did not: the one
 * level whose moving alone explains all of them best (least squares over the differences).
 *
 * @param level its name, or "N1 or N2" where what is known does not tell
 * @param sure whether one level explains them clearly better than any other
 * @param others levels that stayed to each other
 */
record Culprit(String level, boolean sure, List<String> others) {
  /** Chi-square by which the next level must be worse: odds of twenty to one. */
  private static final double CLEARLY = 6;

  /** Articles on either side that a jump is taken from. */
  private static final int WINDOW = 20;

  private static final int FEWEST = 3;

  Culprit {
    others = List.copyOf(others);
  }

  /** How far a difference moved, and its standard error. */
  record Move(DriftSeries series, double size, double error) {}

  /** From moves of all differences of one factor and axis. */
  static Culprit of(List<Move> moves) {
    Set<String> levels = new LinkedHashSet<>();
    for (Move m : moves) {
      levels.add(m.series.plusLevel());
      levels.add(m.series.minusLevel());
    }
    String best = "";
    double least = Double.POSITIVE_INFINITY;
    for (String l : levels) {
      double x = misfit(moves, l);
      if (x < least) {
        least = x;
        best = l;
      }
    }
    List<String> suspects = new ArrayList<>();
    for (String l : levels) {
      if (misfit(moves, l) <= least + CLEARLY) {
        suspects.add(l);
      }
    }
    levels.removeAll(suspects);
    return new Culprit(
        suspects.size() == 1 ? best : String.join(" or ", suspects),
        suspects.size() == 1,
        List.copyOf(levels));
  }

  /** What the differences leave when one level alone moved, by as much as fits best. */
  private static double misfit(List<Move> moves, String level) {
    double w = 0;
    double wx = 0;
    double wxx = 0;
    for (Move m : moves) {
      double sign =
          m.series.plusLevel().equals(level) ? 1 : m.series.minusLevel().equals(level) ? -1 : 0;
      double k = 1 / (m.error * m.error);
      w += k * sign * sign;
      wx += k * sign * m.size;
      wxx += k * m.size * m.size;
    }
    return wxx - (w > 0 ? wx * wx / w : 0);
  }

  /** Jumps of differences at a time, each from the articles about it. */
  static List<Move> jumps(List<SeriesDrift> differences, java.time.Instant at) {
    List<Move> moves = new ArrayList<>();
    for (SeriesDrift d : differences) {
      List<SeriesPoint> p = d.series().points();
      int k = 0;
      while (k < p.size() && p.get(k).at().isBefore(at)) {
        k++;
      }
      int from = Math.max(0, k - WINDOW);
      int to = Math.min(p.size(), k + WINDOW);
      if (k - from < FEWEST || to - k < FEWEST) {
        continue;
      }
      double before = mean(d, from, k);
      double after = mean(d, k, to);
      double ss = squares(d, from, k, before) + squares(d, k, to, after);
      double v = ss / Math.max(1, to - from - 2) * (1.0 / (k - from) + 1.0 / (to - k));
      if (v > 0) {
        moves.add(new Move(d.series(), after - before, Math.sqrt(v)));
      }
    }
    return moves;
  }

  private static double mean(SeriesDrift d, int from, int to) {
    return d.adjusted().subList(from, to).stream().mapToDouble(v -> v).average().orElse(0);
  }

  private static double squares(SeriesDrift d, int from, int to, double mean) {
    return d.adjusted().subList(from, to).stream().mapToDouble(v -> (v - mean) * (v - mean)).sum();
  }

  /** Slopes of differences per day. */
  static List<Move> slopes(List<SeriesDrift> differences) {
    List<Move> moves = new ArrayList<>();
    for (SeriesDrift d : differences) {
      TrendEffect t = d.trend();
      // an interval of 95 % is some four standard errors wide
      double error = t == null ? 0 : 0.25 * (t.high() - t.low());
      if (t != null && error > 0 && Double.isFinite(error)) {
        moves.add(new Move(d.series(), t.perDay(), error));
      }
    }
    return moves;
  }
}
