package org.padtrue.numeric;

import java.util.Arrays;
import java.util.Comparator;

/**
 * Benjamini and Hochberg (1995), J. R. Statist. Soc. B 57: step-up control of false discoveries.
 *
 * <p>Probabilities and levels are pure numbers.
 */
public final class BenjaminiHochberg {
  private BenjaminiHochberg() {}

  /**
   * Which hypotheses pass.
   *
   * @param p tail probabilities; NaN takes no part
   * @param level false discovery rate, e.g. 0.05
   */
  public static boolean[] passes(double[] p, double level) {
    Integer[] order = new Integer[p.length];
    int m = 0;
    for (int i = 0; i < p.length; i++) {
      if (!Double.isNaN(p[i])) {
        order[m++] = i;
      }
    }
    Integer[] sorted = Arrays.copyOf(order, m);
    Arrays.sort(sorted, Comparator.comparingDouble(i -> p[i]));
    int last = -1;
    for (int k = 0; k < m; k++) {
      if (p[sorted[k]] <= level * (k + 1) / m) {
        last = k;
      }
    }
    boolean[] out = new boolean[p.length];
    for (int k = 0; k <= last; k++) {
      out[sorted[k]] = true;
    }
    return out;
  }
}
