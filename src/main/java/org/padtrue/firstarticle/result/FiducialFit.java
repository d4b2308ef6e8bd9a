package org.padtrue.firstarticle.result;

import java.util.List;

/**
 * The fiducials of an article, fitted on their own.
 *
 * @param count number measured
 * @param transform fitted to the fiducials alone
 * @param lines one line per fiducial
 * @param sentence how it compares with the parts' fit
 */
public record FiducialFit(int count, TransformValues transform, List<Line> lines, String sentence) {
  public FiducialFit {
    lines = List.copyOf(lines);
  }

  /**
   * One fiducial.
   *
   * @param name name, with the board for board scope
   * @param deviation measured minus nominal, mm
   * @param residual from the fiducials' own fit, mm
   * @param suspect true when it is off by more than three standard uncertainties
   */
  public record Line(String name, Xy deviation, Xy residual, boolean suspect) {}
}
