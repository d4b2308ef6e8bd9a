package org.padtrue.plan;

import java.util.BitSet;
import java.util.List;
import java.util.TreeMap;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanTerm;

/**
 * Finds good choices of any size for the worst term of one model.
 *
 * <p>Two starts are improved by exchange and the better one is kept: a greedy choice for the worst
 * term, and one for the largest information. Choices whose worst terms differ by less than one per
 * cent then count as tied, and the one with more information wins. None is sure to be the best of
 * all choices; a test holds the result against random ones.
 */
final class MeasuringPlanSearch {
  /** Larger choices stay as the greedy search made them: exchange would cost more than it gains. */
  private static final int EXCHANGE_LIMIT = 400;

  /** Tie in the worst standard error, as a factor on its variance. */
  private static final double TIE = 1.01 * 1.01;

  private final MeasuringPlanModel model;
  private final List<MeasuringPlanTerm> terms;
  private final int candidates;
  private final BitSet fixed = new BitSet();
  private final MeasuringPlanGreedy byWorst;
  private final MeasuringPlanGreedy byInformation;
  private final TreeMap<Integer, MeasuringPlanDesign> made = new TreeMap<>();

  /**
   * A search from candidates that are in any case.
   *
   * @param start their indices
   */
  MeasuringPlanSearch(
      MeasuringPlanModel model, List<MeasuringPlanTerm> terms, List<Integer> start) {
    this.model = model;
    this.terms = terms;
    candidates = model.readings().size();
    start.forEach(fixed::set);
    byWorst = new MeasuringPlanGreedy(model, terms, MeasuringPlanCriterion.WORST, start);
    byInformation =
        new MeasuringPlanGreedy(model, terms, MeasuringPlanCriterion.DETERMINANT, start);
  }

  int candidates() {
    return candidates;
  }

  /**
   * The best choice found of n placements.
   *
   * @param cap variance that the tie must not exceed, infinite when there is none
   */
  MeasuringPlanDesign best(int n, double cap) {
    MeasuringPlanDesign d = made.computeIfAbsent(n, this::make);
    if (n > EXCHANGE_LIMIT || n == candidates) {
      return d;
    }
    double worst = worst(d);
    return MeasuringPlanExchange.inform(
        d, candidates, Math.max(worst, Math.min(cap, worst * TIE)), fixed);
  }

  private MeasuringPlanDesign make(int n) {
    MeasuringPlanDesign a = start(byWorst, n);
    if (n > EXCHANGE_LIMIT || n == candidates) {
      return a;
    }
    a = exchange(a);
    MeasuringPlanDesign b = exchange(start(byInformation, n));
    return better(a, b);
  }

  /** Exchange for the worst term; then once more from the better informed tie it leads to. */
  private MeasuringPlanDesign exchange(MeasuringPlanDesign start) {
    MeasuringPlanDesign d =
        MeasuringPlanExchange.improve(start, candidates, MeasuringPlanCriterion.WORST, fixed);
    MeasuringPlanDesign tie = MeasuringPlanExchange.inform(d, candidates, worst(d) * TIE, fixed);
    return better(
        d, MeasuringPlanExchange.improve(tie, candidates, MeasuringPlanCriterion.WORST, fixed));
  }

  private static MeasuringPlanDesign better(MeasuringPlanDesign a, MeasuringPlanDesign b) {
    MeasuringPlanScore sa = a.score(MeasuringPlanCriterion.WORST);
    return b.score(MeasuringPlanCriterion.WORST).betterThan(sa) ? b : a;
  }

  /** Largest variance over the terms. */
  private static double worst(MeasuringPlanDesign d) {
    return d.score(MeasuringPlanCriterion.WORST).first();
  }

  private MeasuringPlanDesign start(MeasuringPlanGreedy greedy, int n) {
    MeasuringPlanDesign d = new MeasuringPlanDesign(model, terms);
    greedy.first(n).forEach(d::add);
    d.refresh();
    return d;
  }

  /**
   * The smallest size found that holds the worst term within a standard error, or -1 when all
   * candidates do not.
   */
  int smallestWithin(double mm) {
    int least = Math.max(1, fixed.cardinality());
    int high = least;
    while (byWorst.summary(high).worst() > mm) {
      if (high == candidates) {
        return -1;
      }
      high++;
    }
    if (high > EXCHANGE_LIMIT) {
      return high;
    }
    int low = Math.max(least - 1, 3 * high / 4);
    while (high - low > 1) {
      int middle = (low + high) / 2;
      if (worst(quick(middle)) <= mm * mm) {
        high = middle;
      } else {
        low = middle;
      }
    }
    while (high > least && worst(made.computeIfAbsent(high - 1, this::make)) <= mm * mm) {
      high--;
    }
    return high;
  }

  /** One exchange only, good enough to close in on a size. */
  private MeasuringPlanDesign quick(int n) {
    return MeasuringPlanExchange.improve(
        start(byWorst, n), candidates, MeasuringPlanCriterion.WORST, fixed);
  }
}
