package org.padtrue.plan;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.apache.commons.math3.distribution.FDistribution;
import org.padtrue.plan.model.MeasuringPlanModel;

/**
 * Choices of placements by what the decisions made from them are worth: how much of the systematic
 * mean square they take out of the next panel, beside deciding from every placement.
 *
 * <p>With V the mean of x x' over all placements of the panel, b the terms (spread P) and S the
 * covariance of their estimates, measuring everything takes out G = tr(V P) - tr(V S_all) on
 * average and a choice D = tr(V S) - tr(V S_all) less. Both vary from panel to panel as quadratic
 * forms of normal variables; each is taken as a multiple of chi-square with the degrees of freedom
 * that give its variance (Satterthwaite 1946), so that their ratio is an F.
 */
final class MeasuringPlanGain {
  /** Share of panels on which the promise holds. */
  static final double SURE = 0.95;

  /**
   * How much more a choice loses than it would if spreads were known and nothing had to be tested.
   * Of 1, 2, 3 and 4 the first with which 95 % of 60 simulated panels clearly kept what was
   * promised (PlanDecisionTest, seeds from 2000; its own seeds came after).
   */
  private static final double CAUTION = 4;

  /** Larger choices stay as the greedy search made them: exchange would cost more than it gains. */
  private static final int EXCHANGE_LIMIT = 400;

  private static final int REFRESH = 50;

  private final MeasuringPlanModel model;
  private final double[][] weight;
  private final Worth all;
  private final MeasuringPlanDesign design;
  private final BitSet fixed = new BitSet();
  private final List<Integer> picks = new ArrayList<>();
  private final List<Double> keeps = new ArrayList<>();

  /** What measuring everything is worth. */
  record Worth(double gain, double gainFreedom, double left) {
    /**
     * Of all candidates.
     *
     * @param model all candidates, with what is assumed of every term
     * @param weight V
     */
    static Worth of(MeasuringPlanModel model, double[][] weight) {
      MeasuringPlanDesign d = new MeasuringPlanDesign(model, List.of(), weight);
      double before = d.meanSquare();
      double freedom = before * before / d.meanSquareOfSquare();
      d.addAll();
      return new Worth(before - d.meanSquare(), freedom, d.meanSquare());
    }

    /** Share of the gain that a choice keeps at least on {@link #SURE} of all panels. */
    double kept(MeasuringPlanDesign d) {
      double lost = CAUTION * (d.meanSquare() - left);
      if (!(lost > 0)) {
        return 1;
      }
      double freedom = d.meanSquare() * d.meanSquare() / d.meanSquareOfSquare();
      double f = new FDistribution(null, freedom, gainFreedom).inverseCumulativeProbability(SURE);
      return 1 - f * lost / gain;
    }
  }

  /**
   * A search.
   *
   * @param model candidates to choose from
   * @param weight V
   * @param all what measuring everything is worth
   * @param start candidates that are in any case
   */
  MeasuringPlanGain(MeasuringPlanModel model, double[][] weight, Worth all, List<Integer> start) {
    this.model = model;
    this.weight = weight;
    this.all = all;
    design = new MeasuringPlanDesign(model, List.of(), weight);
    start.forEach(this::add);
    start.forEach(fixed::set);
  }

  private void add(int k) {
    design.add(k);
    picks.add(k);
    if (picks.size() % Math.max(REFRESH, model.columns().size()) == 0) {
      design.refresh();
    }
    keeps.add(all.kept(design));
  }

  private void grow(int n) {
    while (picks.size() < n) {
      add(
          MeasuringPlanExchange.bestAddition(
              design, model.readings().size(), MeasuringPlanCriterion.MEAN));
    }
  }

  int candidates() {
    return model.readings().size();
  }

  /** The first n picks: those that are in any case, then always the one that helps most. */
  List<Integer> first(int n) {
    grow(n);
    return picks.subList(0, n);
  }

  /** Share of the gain that the first n keep at least on {@link #SURE} of all panels. */
  double keeps(int n) {
    grow(n);
    return keeps.get(n - 1);
  }

  /**
   * The smallest number that keeps a share of the gain, those that are in any case included; -1
   * when all candidates do not.
   */
  int enough(double share) {
    for (int n = Math.max(1, fixed.cardinality()); n <= candidates(); n++) {
      if (keeps(n) >= share) {
        return n;
      }
    }
    return -1;
  }

  /** The best choice found of n placements. */
  MeasuringPlanDesign best(int n) {
    MeasuringPlanDesign d = new MeasuringPlanDesign(model, List.of(), weight);
    first(n).forEach(d::add);
    d.refresh();
    return n > EXCHANGE_LIMIT || n == candidates()
        ? d
        : MeasuringPlanExchange.improve(d, candidates(), MeasuringPlanCriterion.MEAN, fixed);
  }
}
