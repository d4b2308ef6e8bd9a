package org.padtrue.gauge;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * Means of whole sessions. All readings of one operator, trial and turn share one registration of
 * the panel and its error; so the error of a bias is seen in how session means differ, not in how
 * placements differ. Used only when each session of an operator read all of the operator's
 * placements, and at least two degrees of freedom are there.
 *
 * @param variance variance of a session mean, pooled over operators and turns
 * @param degreesOfFreedom behind it
 * @param counts sessions by operator number and turn, keys "2 true"
 */
record GaugeSessions(double variance, int degreesOfFreedom, Map<String, Integer> counts) {
  private static final int LEAST = 2;

  static GaugeSessions of(GaugeSeries s) {
    Map<String, double[]> sums = new LinkedHashMap<>();
    Map<String, String> groups = new LinkedHashMap<>();
    Map<Integer, Set<Integer>> read = new LinkedHashMap<>();
    for (int i = 0; i < s.y().length; i++) {
      String group = s.operator()[i] + " " + s.readings().get(i).turned();
      String session = group + " " + s.readings().get(i).trial();
      groups.put(session, group);
      double[] t = sums.computeIfAbsent(session, k -> new double[2]);
      t[0] += s.y()[i];
      t[1]++;
      read.computeIfAbsent(s.operator()[i], k -> new HashSet<>()).add(s.part()[i]);
    }
    Map<String, Integer> counts = new LinkedHashMap<>();
    Map<String, double[]> moments = new LinkedHashMap<>();
    boolean complete = true;
    for (Map.Entry<String, double[]> e : sums.entrySet()) {
      String group = String.valueOf(groups.get(e.getKey()));
      int operator = Integer.parseInt(group.substring(0, group.indexOf(' ')));
      Set<Integer> all = read.get(operator);
      complete &= all != null && e.getValue()[1] == all.size();
      double mean = e.getValue()[0] / e.getValue()[1];
      counts.merge(group, 1, Integer::sum);
      double[] m = moments.computeIfAbsent(group, k -> new double[2]);
      m[0] += mean;
      m[1] += mean * mean;
    }
    double ss = 0;
    int df = 0;
    for (Map.Entry<String, double[]> e : moments.entrySet()) {
      Integer n = counts.get(e.getKey());
      int sessions = n == null ? 0 : n;
      ss += Math.max(0, e.getValue()[1] - e.getValue()[0] * e.getValue()[0] / sessions);
      df += sessions - 1;
    }
    return new GaugeSessions(ss / df, complete ? df : 0, counts);
  }

  boolean enough() {
    return degreesOfFreedom >= LEAST;
  }

  /** Half the difference of the means of an operator's unturned and turned sessions. */
  double standardErrorOfBias(int operator) {
    double unturned = counts.getOrDefault(operator + " false", 0);
    double turned = counts.getOrDefault(operator + " true", 0);
    return Math.sqrt(variance * (1 / unturned + 1 / turned)) / 2;
  }
}
