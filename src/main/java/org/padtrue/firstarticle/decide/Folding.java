package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.panel.Factor;

/**
 * Which level terms are too small to be worth typing.
 *
 * <p>A term is a level, x, y and rotation together. The least ones are folded as long as what they
 * together take out of the next panel's mean square stays below {@value #SHARE} of what all level
 * terms take out. Each counts by the chance that it is not nought: where few levels of a factor are
 * off and most are not, the estimates fall into two heaps (a two-groups mixture of noise alone and
 * noise with a spread of its own; Efron 2008, Stat. Sci. 23), and what belongs to the heap of noise
 * costs nothing to leave. Where every level is off there is no such heap. Few levels do not tell
 * how large either heap is, so all sizes are averaged by how well they explain the levels of the
 * factor. For display and entry only: no error rate is claimed.
 */
final class Folding {
  static final double SHARE = 0.03;

  /** How the reason of a folded level begins. */
  static final String REASON = "too small to be worth typing";

  /**
   * Chance of being nought from which a term is left even if it would take out more: as likely
   * nought as not.
   */
  private static final double NOUGHT = 0.5;

  /** Share of what all take out beyond which a term is typed however unsure it is. */
  private static final double LITTLE = 0.10;

  /** Share of noughts among the levels. */
  private static final double[] SHARES = {.02, .1, .2, .3, .4, .5, .6, .7, .8, .9, .98};

  /** Variance of what is off in those of the noise. */
  private static final double[] SPREADS = {1, 2, 4, 8, 16, 32, 64, 128};

  /** Degrees of freedom of the noise: scatter is estimated too, mostly with some twenty. */
  private static final double TAILS = 20;

  private Folding() {}

  /**
   * A level that could be trimmed.
   *
   * @param key which
   * @param factor the factor it belongs to
   * @param gain what entering it takes out of the mean square of the next panel, mm^2
   * @param z estimates over their sampling standard errors, unshrunk: x, y, rotation; NaN where the
   *     axis is not known
   * @param kept true when it is never folded: a level that stands apart
   */
  record Term<K>(K key, Factor factor, double gain, double[] z, boolean kept) {}

  /** One sentence on what was folded. */
  static String sentence(int terms, double rmsMm) {
    return (terms == 1 ? "1 offset is " : terms + " offsets are ")
        + REASON
        + String.format(
            java.util.Locale.ROOT,
            ": together %.1f um RMS of the next panel; --all lists %s",
            1e3 * rmsMm,
            terms == 1 ? "it" : "them");
  }

  /** Keys of the terms to fold. */
  static <K> Set<K> fold(List<Term<K>> terms) {
    double all = terms.stream().mapToDouble(Term::gain).sum();
    List<double[]> order = new ArrayList<>();
    double[] nought = noughts(terms);
    for (int i = 0; i < terms.size(); i++) {
      if (!terms.get(i).kept()) {
        order.add(new double[] {(1 - nought[i]) * terms.get(i).gain(), i});
      }
    }
    order.sort(Comparator.comparingDouble(o -> o[0]));
    Set<K> folded = new HashSet<>();
    double sum = 0;
    for (double[] o : order) {
      sum += o[0];
      int i = (int) o[1];
      boolean little = terms.get(i).gain() <= LITTLE * all;
      if (sum <= SHARE * all || nought[i] > NOUGHT && little) {
        folded.add(terms.get(i).key());
      }
    }
    return folded;
  }

  /** Chance that each term is nought, from all terms of its factor. */
  private static <K> double[] noughts(List<Term<K>> terms) {
    double[] out = new double[terms.size()];
    for (Factor factor : terms.stream().map(Term::factor).distinct().toList()) {
      List<Integer> of = new ArrayList<>();
      for (int i = 0; i < terms.size(); i++) {
        if (terms.get(i).factor() == factor) {
          of.add(i);
        }
      }
      double[] place = mixture(terms, of, 0, 2);
      double[] turn = mixture(terms, of, 2, 3);
      for (int j = 0; j < of.size(); j++) {
        // A type may be off in rotation alone: nought is what is nought in both.
        out[of.get(j)] = place[j] * turn[j];
      }
    }
    return out;
  }

  /**
   * Chance that each level is nought in some of its axes, averaged over what the share of noughts
   * and the spread of what is off may be; 1 where nothing is known.
   */
  private static <K> double[] mixture(List<Term<K>> terms, List<Integer> of, int from, int to) {
    int n = of.size();
    double[] chance = new double[n];
    double[][] logs = new double[SPREADS.length][SHARES.length];
    double[][][] noughts = new double[SPREADS.length][SHARES.length][n];
    double most = Double.NEGATIVE_INFINITY;
    boolean known = false;
    for (int c = 0; c < SPREADS.length; c++) {
      for (int s = 0; s < SHARES.length; s++) {
        // Most is right: the prior of the share rises with it.
        logs[c][s] = Math.log(SHARES[s]);
        for (int j = 0; j < n; j++) {
          double ratio = 1;
          for (int axis = from; axis < to; axis++) {
            double z = terms.get(of.get(j)).z()[axis];
            known |= !Double.isNaN(z);
            ratio *= likelihood(z, SPREADS[c]);
          }
          double density = SHARES[s] + (1 - SHARES[s]) * ratio;
          noughts[c][s][j] = SHARES[s] / density;
          logs[c][s] += Math.log(density);
        }
        most = Math.max(most, logs[c][s]);
      }
    }
    double sum = 0;
    for (int c = 0; c < SPREADS.length; c++) {
      for (int s = 0; s < SHARES.length; s++) {
        double w = Math.exp(logs[c][s] - most);
        sum += w;
        for (int j = 0; j < n; j++) {
          chance[j] += w * noughts[c][s][j];
        }
      }
    }
    for (int j = 0; j < n; j++) {
      chance[j] = known ? chance[j] / sum : 1;
    }
    return chance;
  }

  /** Density of noise with a spread over that of noise alone; 1 where nothing is known. */
  private static double likelihood(double z, double spread) {
    if (Double.isNaN(z)) {
      return 1;
    }
    double wide = 1 + spread;
    double log = Math.log1p(z * z / TAILS) - Math.log1p(z * z / TAILS / wide);
    return Math.exp(Math.min(200, (TAILS + 1) / 2 * log - 0.5 * Math.log(wide)));
  }
}
