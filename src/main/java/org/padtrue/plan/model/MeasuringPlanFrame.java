package org.padtrue.plan.model;

import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Where the panel terms of a plan are taken: shift at the centroid, everything else as what it does
 * half a diagonal away from it, so that all terms are millimetres and can be compared.
 *
 * @param xMm centroid of all candidates, mm
 * @param yMm centroid of all candidates, mm
 * @param halfDiagonalMm half the diagonal of the box around all candidates, mm; 1 for a single
 *     point
 * @param meanColumn mean index of the board columns of all candidates
 * @param meanRow mean index of the board rows of all candidates
 * @param columns true when candidates sit on boards of more than one column
 * @param rows true when candidates sit on boards of more than one row
 */
public record MeasuringPlanFrame(
    double xMm,
    double yMm,
    double halfDiagonalMm,
    double meanColumn,
    double meanRow,
    boolean columns,
    boolean rows) {

  public static MeasuringPlanFrame of(List<MeasuringPlanCandidate> all) {
    double x = mean(all, c -> c.pose().xMm());
    double y = mean(all, c -> c.pose().yMm());
    double half = Math.hypot(range(all, c -> c.pose().xMm()), range(all, c -> c.pose().yMm())) / 2;
    return new MeasuringPlanFrame(
        x,
        y,
        half > 0 ? half : 1,
        mean(all, c -> c.board().column()),
        mean(all, c -> c.board().row()),
        range(all, c -> c.board().column()) > 0,
        range(all, c -> c.board().row()) > 0);
  }

  private static double mean(
      List<MeasuringPlanCandidate> all, ToDoubleFunction<MeasuringPlanCandidate> f) {
    return all.stream().mapToDouble(f).average().orElse(0);
  }

  private static double range(
      List<MeasuringPlanCandidate> all, ToDoubleFunction<MeasuringPlanCandidate> f) {
    return all.stream().mapToDouble(f).max().orElse(0)
        - all.stream().mapToDouble(f).min().orElse(0);
  }
}
