package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What turning the panel shows on one axis; see {@link GaugeBias} for why.
 *
 * @param series the readings
 * @param operators numbers of the operators who read at least one placement both ways
 * @param bias their biases, same order
 * @param standardError of each, NaN unknown
 * @param placements read both ways by each
 * @param registrationSeen standard errors rest on several registrations
 */
@SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
record GaugeTurning(
    GaugeSeries series,
    List<Integer> operators,
    double[] bias,
    double[] standardError,
    int[] placements,
    boolean registrationSeen) {

  static GaugeTurning of(GaugeSeries s) {
    List<Integer> operators = new ArrayList<>();
    List<double[]> halves = new ArrayList<>();
    for (int o = 0; o < s.operators().size(); o++) {
      double[] h = halfDifferences(s, o);
      if (h.length > 0) {
        operators.add(o);
        halves.add(h);
      }
    }
    double[] bias = new double[operators.size()];
    double[] se = new double[operators.size()];
    int[] n = new int[operators.size()];
    for (int k = 0; k < bias.length; k++) {
      double[] h = halves.get(k);
      n[k] = h.length;
      bias[k] = mean(h);
      se[k] = h.length > 1 ? Math.sqrt(variance(h) / h.length) : Double.NaN;
    }
    GaugeSessions sessions = GaugeSessions.of(s);
    if (sessions.enough()) {
      for (int k = 0; k < se.length; k++) {
        se[k] = sessions.standardErrorOfBias(operators.get(k));
      }
    }
    return new GaugeTurning(s, operators, bias, se, n, sessions.enough());
  }

  /** Half of unturned minus turned, for each placement that one operator read both ways. */
  private static double[] halfDifferences(GaugeSeries s, int operator) {
    Map<Integer, double[]> sums = new TreeMap<>();
    for (int i = 0; i < s.y().length; i++) {
      if (s.operator()[i] == operator) {
        double[] t = sums.computeIfAbsent(s.part()[i], k -> new double[4]);
        int at = s.readings().get(i).turned() ? 2 : 0;
        t[at] += s.y()[i];
        t[at + 1]++;
      }
    }
    return sums.values().stream()
        .filter(t -> t[1] > 0 && t[3] > 0)
        .mapToDouble(t -> (t[0] / t[1] - t[2] / t[3]) / 2)
        .toArray();
  }

  boolean seen() {
    return !operators.isEmpty();
  }

  /** Mean bias over operators. */
  double overall() {
    return mean(bias);
  }

  /** Standard error of the mean over these operators. */
  double overallStandardError() {
    double s = 0;
    for (double e : standardError) {
      s += e * e;
    }
    return Math.sqrt(s) / standardError.length;
  }

  /** Readings brought to the unturned panel: turned ones plus twice their operator's bias. */
  GaugeSeries straightened() {
    double[] y = series.y().clone();
    for (int i = 0; i < y.length; i++) {
      int k = operators.indexOf(series.operator()[i]);
      if (k >= 0 && series.readings().get(i).turned()) {
        y[i] += 2 * bias[k];
      }
    }
    return series.with(y);
  }

  /**
   * Mean over operators of all readings over unturned ones: straightened turned readings have the
   * mean of the unturned ones and add nothing to what is known of an operator.
   */
  double operatorWeight() {
    double sum = 0;
    for (int o = 0; o < series.operators().size(); o++) {
      double all = 0;
      double unturned = 0;
      for (int i = 0; i < series.y().length; i++) {
        if (series.operator()[i] == o) {
          all++;
          unturned += series.readings().get(i).turned() ? 0 : 1;
        }
      }
      sum += operators.contains(o) ? all / unturned : 1;
    }
    return sum / series.operators().size();
  }

  /** Fixed effects of one reading: a constant, and one for each operator's turned readings. */
  double[] fixedEffects(int i) {
    double[] x = new double[1 + operators.size()];
    x[0] = 1;
    int k = operators.indexOf(series.operator()[i]);
    if (k >= 0 && series.readings().get(i).turned()) {
      x[1 + k] = 1;
    }
    return x;
  }

  static double mean(double[] v) {
    double s = 0;
    for (double x : v) {
      s += x;
    }
    return s / v.length;
  }

  static double variance(double[] v) {
    double m = mean(v);
    double s = 0;
    for (double x : v) {
      s += (x - m) * (x - m);
    }
    return s / (v.length - 1);
  }
}
