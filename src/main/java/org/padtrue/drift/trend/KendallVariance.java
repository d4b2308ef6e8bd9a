package org.padtrue.drift.trend;

import java.util.Arrays;
import org.padtrue.numeric.Tail;

/**
 * Variance of the weighted Kendall statistic when there is no trend and point i is normal with its
 * own sigma. With h_ij = w_i w_j s_ij sgn(y_j - y_i): the variance of Hajek's projection, sum over
 * i of E[(sum over j of E[h_ij | y_i])^2], plus over pairs w_i^2 w_j^2 (1 - a_ij - a_ji) with a_ij
 * = 2/pi asin(sigma_i^2 / (sigma_i^2 + sigma_j^2)) (Hoeffding 1948; Sheppard's orthant formula).
 * Sigmas are gathered in classes, so the cost is linear in points.
 */
final class KendallVariance {
  private static final int CLASSES = 6;
  private static final int NODES = 31;
  private static final double REACH = 5;

  private KendallVariance() {}

  /** x in rising order, ties allowed. */
  static double of(double[] x, double[] w, double[] sigma) {
    int n = x.length;
    int[] c = classes(sigma);
    double[] s = representatives(sigma, c);
    int g = s.length;
    double[][][] mean = conditional(s);
    double[] weight = nodeWeights();
    double[] total = new double[g];
    double[] totalSquare = new double[g];
    for (int i = 0; i < n; i++) {
      total[c[i]] += w[i];
      totalSquare[c[i]] += w[i] * w[i];
    }
    double variance = 0;
    double[] before = new double[g];
    int i = 0;
    while (i < n) {
      double[] at = new double[g];
      double[] atSquare = new double[g];
      int j = i;
      while (j < n && x[j] == x[i]) {
        at[c[j]] += w[j];
        atSquare[c[j]] += w[j] * w[j];
        j++;
      }
      for (int k = i; k < j; k++) {
        double projected = 0;
        for (int q = 0; q < NODES; q++) {
          double e = 0;
          for (int m = 0; m < g; m++) {
            // after minus before, the tied ones left out
            double signed = total[m] - 2 * before[m] - at[m];
            e += signed * mean[c[k]][q][m];
          }
          projected += weight[q] * e * e;
        }
        double rest = 0;
        for (int m = 0; m < g; m++) {
          double others = totalSquare[m] - atSquare[m];
          rest += 0.5 * others * (1 - a(s[c[k]], s[m]) - a(s[m], s[c[k]]));
        }
        variance += w[k] * w[k] * (projected + rest);
      }
      for (int m = 0; m < g; m++) {
        before[m] += at[m];
      }
      i = j;
    }
    return variance;
  }

  private static double a(double si, double sj) {
    return 2 / Math.PI * Math.asin(si * si / (si * si + sj * sj));
  }

  private static int[] classes(double[] sigma) {
    double[] sorted = sigma.clone();
    Arrays.sort(sorted);
    double min = Math.log(sorted[0]);
    double span = Math.log(sorted[sorted.length - 1]) - min;
    int[] c = new int[sigma.length];
    for (int i = 0; i < c.length; i++) {
      double f = span > 0 ? (Math.log(sigma[i]) - min) / span : 0;
      c[i] = (int) Math.min(CLASSES - 1, Math.max(0, f * CLASSES));
    }
    return renumbered(c);
  }

  // Without the empty classes, which would only cost time.
  private static int[] renumbered(int[] c) {
    int[] number = new int[CLASSES];
    Arrays.fill(number, -1);
    int next = 0;
    for (int i = 0; i < c.length; i++) {
      if (number[c[i]] < 0) {
        number[c[i]] = next++;
      }
      c[i] = number[c[i]];
    }
    return c;
  }

  private static double[] representatives(double[] sigma, int[] c) {
    int classes = Arrays.stream(c).max().orElse(0) + 1;
    double[] sum = new double[classes];
    int[] count = new int[classes];
    for (int i = 0; i < c.length; i++) {
      sum[c[i]] += Math.log(sigma[i]);
      count[c[i]]++;
    }
    double[] s = new double[classes];
    for (int m = 0; m < classes; m++) {
      s[m] = Math.exp(sum[m] / count[m]);
    }
    return s;
  }

  // E[sgn(y_j - y_i) | y_i = z sigma_i] = 1 - 2 Phi(z sigma_i / sigma_j), by class of i, node,
  // class of
  // j.
  private static double[][][] conditional(double[] s) {
    double[][][] mean = new double[s.length][NODES][s.length];
    for (int i = 0; i < s.length; i++) {
      for (int q = 0; q < NODES; q++) {
        for (int j = 0; j < s.length; j++) {
          mean[i][q][j] = 1 - 2 * Tail.normalCdf(node(q) * s[i] / s[j]);
        }
      }
    }
    return mean;
  }

  private static double node(int q) {
    return REACH * (2.0 * q / (NODES - 1) - 1);
  }

  private static double[] nodeWeights() {
    double[] weight = new double[NODES];
    double sum = 0;
    for (int q = 0; q < NODES; q++) {
      weight[q] = Math.exp(-0.5 * node(q) * node(q));
      sum += weight[q];
    }
    for (int q = 0; q < NODES; q++) {
      weight[q] /= sum;
    }
    return weight;
  }
}
