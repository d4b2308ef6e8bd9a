package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Which level terms are too small to be worth typing.
 *
 * <p>A term is a level, x, y and rotation together. The least ones are folded as long as what they
 * together take out of the next panel's mean square stays below {@value #SHARE} of what all level
 * terms take out. Each counts by the chance that it is not nought: where few levels of a factor are
 * off and most are not, the estimates fall into two heaps (a two-groups mixture of noise alone and
 * noise with a spread of its own, by EM over the levels of the factor; Efron 2008, Stat. Sci. 23),
 * and what belongs to the heap of noise costs nothing to leave. Where every level is off there is
 * no such heap. For display and entry only: no error rate is claimed.
 */
final class Folding {
  static final double SHARE = 0.03;

  /** How the reason of a folded level begins. */
  static final String REASON = "too small to be worth typing";

  /**
   * Chance of being nought from which a term is left even if it would take out more; as likely
   * nought as not.
   */
  private static final double NOUGHT = 0.5;

  /** Share of what all take out beyond which a term is typed however unsure it is. */
  private static final double LITTLE = 0.10;

  private static final int ROUNDS = 200;

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
  record Term<K>(K key, String factor, double gain, double[] z, boolean kept) {}

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
    for (String factor : terms.stream().map(Term::factor).distinct().toList()) {
      List<Integer> of = new ArrayList<>();
      for (int i = 0; i < terms.size(); i++) {
        if (terms.get(i).factor().equals(factor)) {
          of.add(i);
        }
      }
      mixture(terms, of, out);
    }
    return out;
  }

  private static <K> void mixture(List<Term<K>> terms, List<Integer> of, double[] out) {
    int n = of.size();
    // One heap of each kind to start from and as much belief: few levels cannot tell more.
    double share = 0.5;
    double[] spread = {9, 9, 9};
    double[] chance = new double[n];
    for (int round = 0; round < ROUNDS; round++) {
      double sum = 0.5;
      double[] ss = new double[3];
      double[] w = new double[3];
      for (int j = 0; j < n; j++) {
        double[] z = terms.get(of.get(j)).z();
        double log = 0;
        for (int a = 0; a < 3; a++) {
          if (!Double.isNaN(z[a])) {
            // Density of noise with a spread over that of noise alone.
            log += -0.5 * Math.log1p(spread[a]) + 0.5 * z[a] * z[a] * spread[a] / (1 + spread[a]);
          }
        }
        chance[j] = 1 / (1 + (1 - share) / share * Math.exp(Math.min(log, 500)));
        sum += chance[j];
        for (int a = 0; a < 3; a++) {
          if (!Double.isNaN(z[a])) {
            ss[a] += (1 - chance[j]) * z[a] * z[a];
            w[a] += 1 - chance[j];
          }
        }
      }
      share = Math.min(0.98, Math.max(0.02, sum / (n + 1)));
      for (int a = 0; a < 3; a++) {
        // One level's worth of belief that a spread is three standard errors wide.
        spread[a] = Math.max(1, (ss[a] + 10) / (w[a] + 1) - 1);
      }
    }
    for (int j = 0; j < n; j++) {
      out[of.get(j)] = chance[j];
    }
  }
}
