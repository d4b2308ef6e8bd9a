package org.padtrue.history;

import java.util.Optional;
import org.padtrue.panel.Levels;
import org.padtrue.panel.article.FaultKind;

/**
 * One placement of a logged article that was measured or marked as a fault, panel frame.
 *
 * @param panel panel name
 * @param column board column, 1-based
 * @param row board row, 1-based
 * @param ref reference designator
 * @param part part type
 * @param levels nozzle, feeder, ... as far as they are known
 * @param xMm nominal, mm
 * @param yMm nominal, mm
 * @param rotationDeg nominal, degrees
 * @param dxMm measured minus nominal, mm; NaN not measured
 * @param dyMm the same along y
 * @param dRotationDeg the same for rotation, degrees; NaN not measured
 * @param uMm standard uncertainty, mm; NaN when none was stated
 * @param used true when it took part in the fit
 * @param excludedAs what it looked like when it did not; else empty
 */
public record LoggedPlacement(
    String panel,
    int column,
    int row,
    String ref,
    String part,
    Levels levels,
    double xMm,
    double yMm,
    double rotationDeg,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    double uMm,
    boolean used,
    String excludedAs) {

  /** What the article itself marks as wrong with it, whatever was measured. */
  public Optional<FaultKind> fault() {
    return FaultKind.parse(excludedAs);
  }
}
