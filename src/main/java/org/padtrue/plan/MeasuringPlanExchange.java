package org.padtrue.plan;

import java.util.BitSet;

/**
 * Greedy choice and one-for-one exchange on the information matrix (after Fedorov 1972, Theory of
 * Optimal Experiments). Every tie goes to the earlier candidate, so that the same input gives the
 * same plan.
 */
final class MeasuringPlanExchange {
  private static final int PASSES = 10;
  private static final int INFORM_PASSES = 3;
  private static final double LEAST_GAIN = 1e-6;

  private MeasuringPlanExchange() {}

  /** The candidate whose coming helps most, or -1 when all are in. */
  static int bestAddition(MeasuringPlanDesign d, int candidates, MeasuringPlanCriterion criterion) {
    MeasuringPlanScore best = MeasuringPlanScore.WORST;
    int at = -1;
    for (int k = 0; k < candidates; k++) {
      if (!d.contains(k)) {
        MeasuringPlanScore s = d.withOneMore(k, criterion, best);
        if (s.betterThan(best)) {
          best = s;
          at = k;
        }
      }
    }
    return at;
  }

  /**
   * Swaps one chosen candidate for one that is not as long as that helps.
   *
   * @param fixed indices of candidates that stay whatever is gained
   * @return the design after the last swap
   */
  static MeasuringPlanDesign improve(
      MeasuringPlanDesign start, int candidates, MeasuringPlanCriterion criterion, BitSet fixed) {
    MeasuringPlanDesign d = start;
    for (int pass = 0; pass < PASSES; pass++) {
      boolean swapped = false;
      for (int out : d.chosen()) {
        if (fixed.get(out)) {
          continue;
        }
        MeasuringPlanDesign without = d.copy();
        without.remove(out);
        MeasuringPlanScore best = d.score(criterion);
        int at = -1;
        for (int k = 0; k < candidates; k++) {
          if (!d.contains(k)) {
            MeasuringPlanScore s = without.withOneMore(k, criterion, best);
            if (s.betterThan(best)) {
              best = s;
              at = k;
            }
          }
        }
        if (at >= 0) {
          without.add(at);
          d = without;
          swapped = true;
        }
      }
      d.refresh();
      if (!swapped) {
        break;
      }
    }
    return d;
  }

  /**
   * Swaps as long as the information grows and no term's variance exceeds a cap: of choices that
   * are as good for the worst term, the one that is better for all others.
   *
   * @param cap largest variance allowed
   * @param fixed candidates that stay
   */
  static MeasuringPlanDesign inform(
      MeasuringPlanDesign start, int candidates, double cap, BitSet fixed) {
    MeasuringPlanDesign d = start;
    for (int pass = 0; pass < INFORM_PASSES; pass++) {
      boolean swapped = false;
      for (int out : d.chosen()) {
        if (fixed.get(out)) {
          continue;
        }
        MeasuringPlanDesign without = d.copy();
        without.remove(out);
        double toBeat = d.logDet() - without.logDet() + LEAST_GAIN;
        int at = -1;
        for (int k = 0; k < candidates; k++) {
          if (!d.contains(k)) {
            double gain = without.informationWithin(k, cap);
            if (gain > toBeat) {
              toBeat = gain;
              at = k;
            }
          }
        }
        if (at >= 0) {
          without.add(at);
          d = without;
          swapped = true;
        }
      }
      d.refresh();
      if (!swapped) {
        break;
      }
    }
    return d;
  }
}
