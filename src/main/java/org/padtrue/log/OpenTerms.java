package org.padtrue.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Factor;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.Term;

/**
 * Settles what an article leaves open between two groups of terms.
 *
 * <p>A constant over all nozzles is one over all part types: an article alone lets the nozzles sum
 * to zero, so that a step of one nozzle of five would show as a fifth of it, reversed, on the other
 * four and on every type. Over the log it is settled otherwise: in each article the constant is
 * such that the middle nozzle (the median) stays where it was over the log. A step of one then
 * stays with that one, and a move of all together with the parts. Heads give to the shift, and
 * rotations of the levels of a factor to rotationZero, in the same way.
 *
 * <p>Value and state move together, so that their difference stays the trims in force.
 */
final class OpenTerms {
  private OpenTerms() {}

  /** Articles on either side that a running median takes in. */
  private static final int WINDOW = 8;

  /** Standard error of a median over that of a mean, normal values. */
  private static final double OF_MEDIAN = 1.2533;

  private record Pair(Factor giver, OffsetAxis axis, Term taker) {}

  private static final List<Pair> PAIRS = pairs();

  // Part rotations give to rotationZero first; then nozzles, feeders and heads have nowhere else.
  private static List<Pair> pairs() {
    List<Pair> all = new ArrayList<>();
    for (Factor f : Factor.carried()) {
      if (f != Factor.PART) {
        boolean turns = f.frame() == OffsetFrame.PART;
        LevelTerm x = LevelTerm.every(Factor.PART, OffsetAxis.X);
        LevelTerm y = LevelTerm.every(Factor.PART, OffsetAxis.Y);
        all.add(new Pair(f, OffsetAxis.X, turns ? x : FixedTerm.SHIFT_X));
        all.add(new Pair(f, OffsetAxis.Y, turns ? y : FixedTerm.SHIFT_Y));
      }
    }
    for (Factor f : Factor.carried()) {
      all.add(new Pair(f, OffsetAxis.ROTATION, FixedTerm.ROTATION_ZERO));
    }
    return all;
  }

  /** The same series with every article's constants settled. */
  static List<LoggedSeries> settled(List<LoggedSeries> series) {
    Map<String, LoggedSeries> all = new LinkedHashMap<>();
    series.forEach(s -> all.put(s.name(), s));
    for (Pair p : PAIRS) {
      settle(all, p);
    }
    return List.copyOf(all.values());
  }

  private static void settle(Map<String, LoggedSeries> all, Pair pair) {
    List<LoggedSeries> givers =
        all.values().stream()
            .filter(
                s ->
                    LevelTerm.parse(s.name())
                        .filter(t -> t.factor() == pair.giver && t.axis() == pair.axis)
                        .filter(t -> t.minus() == null)
                        .isPresent())
            .toList();
    if (givers.size() < 2) {
      return;
    }
    Map<Long, Double> constant = constants(givers);
    for (LoggedSeries s : givers) {
      all.put(s.name(), moved(s, constant, -1));
    }
    for (LoggedSeries s : List.copyOf(all.values())) {
      // a difference has nothing of what all levels share, nor has what other levels are tied to
      boolean takes =
          pair.taker instanceof LevelTerm every
              ? LevelTerm.parse(s.name()).filter(t -> t.plain() && every.share(t) == 1).isPresent()
              : s.name().equals(pair.taker.series());
      if (takes) {
        all.put(s.name(), moved(s, constant, 1));
      }
    }
  }

  /** By article: what its levels share, against the whole log. */
  private static Map<Long, Double> constants(List<LoggedSeries> givers) {
    Map<Long, Double> trims = meanTrims(givers);
    Map<Long, List<double[]>> off = new TreeMap<>();
    for (LoggedSeries s : givers) {
      double[] state =
          s.points().stream()
              .mapToDouble(p -> p.state() + trims.getOrDefault(p.articleId(), 0.0))
              .toArray();
      double usual = Order.median(state);
      double error = error(s);
      for (int i = 0; i < state.length; i++) {
        int from = Math.max(0, i - WINDOW);
        int to = Math.min(state.length, i + WINDOW + 1);
        double here = Order.median(Arrays.copyOfRange(state, from, to));
        off.computeIfAbsent(s.points().get(i).articleId(), k -> new ArrayList<>())
            .add(new double[] {here - usual, OF_MEDIAN * error / Math.sqrt(to - from)});
      }
    }
    Map<Long, Double> constant = new HashMap<>();
    off.forEach((id, v) -> constant.put(id, Biweight.centre(v) - trims.getOrDefault(id, 0.0)));
    return constant;
  }

  /** Mean over the levels present of the trims in force, by article. */
  private static Map<Long, Double> meanTrims(List<LoggedSeries> givers) {
    Map<Long, double[]> sums = new HashMap<>();
    for (LoggedSeries s : givers) {
      for (LoggedPoint p : s.points()) {
        double[] sum = sums.computeIfAbsent(p.articleId(), k -> new double[2]);
        sum[0] += p.trims();
        sum[1]++;
      }
    }
    Map<Long, Double> means = new HashMap<>();
    sums.forEach((id, sum) -> means.put(id, sum[0] / sum[1]));
    return means;
  }

  /** Typical standard error of one article. */
  private static double error(LoggedSeries s) {
    double[] known =
        s.points().stream().mapToDouble(LoggedPoint::standardError).filter(v -> v > 0).toArray();
    return known.length == 0 ? 0 : Order.median(known);
  }

  private static LoggedSeries moved(LoggedSeries s, Map<Long, Double> constant, int sign) {
    List<LoggedPoint> points = new ArrayList<>();
    for (LoggedPoint p : s.points()) {
      double c = sign * constant.getOrDefault(p.articleId(), 0.0);
      points.add(
          new LoggedPoint(
              p.at(),
              p.articleId(),
              p.panel(),
              p.value() + c,
              p.standardError(),
              p.state() + c,
              p.trims(),
              p.conditions()));
    }
    return new LoggedSeries(s.name(), s.unit(), points);
  }
}
