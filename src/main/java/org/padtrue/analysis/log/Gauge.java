package org.padtrue.analysis.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;

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
final class Gauge {
  private Gauge() {}

  private record Pair(String giver, String axis, String taker) {}

  // Part rotations give to rotationZero first; then nozzles, feeders and heads have nowhere else.
  private static final List<Pair> PAIRS =
      List.of(
          new Pair("nozzle", "x", "part * x"),
          new Pair("nozzle", "y", "part * y"),
          new Pair("feeder", "x", "part * x"),
          new Pair("feeder", "y", "part * y"),
          new Pair("head", "x", "shiftX"),
          new Pair("head", "y", "shiftY"),
          new Pair("part", "rotation", "rotationZero"),
          new Pair("nozzle", "rotation", "rotationZero"),
          new Pair("feeder", "rotation", "rotationZero"),
          new Pair("head", "rotation", "rotationZero"));

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
                s -> s.name().startsWith(pair.giver + " ") && s.name().endsWith(" " + pair.axis))
            .toList();
    if (givers.size() < 2) {
      return;
    }
    Map<Long, Double> constant = constants(givers);
    for (LoggedSeries s : givers) {
      all.put(s.name(), moved(s, constant, -1));
    }
    int star = pair.taker.indexOf('*');
    for (LoggedSeries s : List.copyOf(all.values())) {
      boolean takes =
          star < 0
              ? s.name().equals(pair.taker)
              : s.name().startsWith(pair.taker.substring(0, star))
                  && s.name().endsWith(pair.taker.substring(star + 1));
      if (takes) {
        all.put(s.name(), moved(s, constant, 1));
      }
    }
  }

  /** By article: the median over levels of state minus the level's median over the log. */
  private static Map<Long, Double> constants(List<LoggedSeries> givers) {
    Map<Long, List<Double>> off = new TreeMap<>();
    for (LoggedSeries s : givers) {
      double usual = median(s.points().stream().mapToDouble(LoggedPoint::state).toArray());
      for (LoggedPoint p : s.points()) {
        off.computeIfAbsent(p.articleId(), k -> new ArrayList<>()).add(p.state() - usual);
      }
    }
    Map<Long, Double> constant = new HashMap<>();
    off.forEach(
        (id, v) -> constant.put(id, median(v.stream().mapToDouble(Double::doubleValue).toArray())));
    return constant;
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
              p.conditions()));
    }
    return new LoggedSeries(s.name(), s.unit(), points);
  }

  private static double median(double[] v) {
    double[] s = v.clone();
    Arrays.sort(s);
    int n = s.length;
    return n == 0 ? 0 : n % 2 == 1 ? s[n / 2] : 0.5 * (s[n / 2 - 1] + s[n / 2]);
  }
}
