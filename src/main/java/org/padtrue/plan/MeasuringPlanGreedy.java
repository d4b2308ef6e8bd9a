package org.padtrue.plan;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanTerm;

/** One candidate after the other, always the one that helps most; grows as it is asked. */
final class MeasuringPlanGreedy {
  private static final int REFRESH = 50;

  private final MeasuringPlanModel model;
  private final List<MeasuringPlanTerm> terms;
  private final MeasuringPlanCriterion criterion;
  private final MeasuringPlanDesign design;
  private final List<Integer> picks = new ArrayList<>();
  private final List<MeasuringPlanSummary> summaries = new ArrayList<>();

  /**
   * A choice from nothing, or from candidates that are in any case.
   *
   * @param start indices of these
   */
  MeasuringPlanGreedy(
      MeasuringPlanModel model,
      List<MeasuringPlanTerm> terms,
      MeasuringPlanCriterion criterion,
      List<Integer> start) {
    this.model = model;
    this.terms = terms;
    this.criterion = criterion;
    design = new MeasuringPlanDesign(model, terms);
    start.forEach(this::add);
  }

  /** The first n picks. */
  List<Integer> first(int n) {
    grow(n);
    return picks.subList(0, n);
  }

  /** How well the terms are known with the first n picks. */
  MeasuringPlanSummary summary(int n) {
    grow(n);
    return summaries.get(n - 1);
  }

  private void grow(int n) {
    while (picks.size() < n) {
      add(MeasuringPlanExchange.bestAddition(design, model.readings().size(), criterion));
    }
  }

  private void add(int k) {
    design.add(k);
    picks.add(k);
    if (picks.size() % REFRESH == 0) {
      design.refresh();
    }
    summaries.add(MeasuringPlanSummary.of(design.variances(), terms));
  }
}
