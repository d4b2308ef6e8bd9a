package org.padtrue.plan.model;

import java.util.List;

/**
 * How many placements show a term.
 *
 * @param all every candidate
 * @param picked indices of the chosen ones
 */
public record MeasuringPlanCount(List<MeasuringPlanCandidate> all, List<Integer> picked) {

  public int chosen(MeasuringPlanColumn column) {
    return (int) picked.stream().filter(i -> shows(column, all.get(i))).count();
  }

  public int available(MeasuringPlanColumn column) {
    return (int) all.stream().filter(c -> shows(column, c)).count();
  }

  private static boolean shows(MeasuringPlanColumn column, MeasuringPlanCandidate c) {
    return !column.factor().random() || column.level().equals(column.factor().level(c));
  }
}
