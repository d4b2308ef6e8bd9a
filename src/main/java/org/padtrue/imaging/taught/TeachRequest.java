package org.padtrue.imaging.taught;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Pose;

/**
 * A placement that the user names as a good sample of its type.
 *
 * @param column board column
 * @param row board row
 * @param ref reference designator
 * @param lengthMm how long the part is along its x, mm; NaN: as the part type says
 * @param widthMm how wide
 * @param deviation where the sample stands, measured otherwise: measured less nominal, panel frame;
 *     null when not known
 * @param uMm standard uncertainty of that, x and y, mm; NaN without
 * @param uRotationDeg of its rotation, degrees; NaN without
 */
public record TeachRequest(
    int column,
    int row,
    String ref,
    double lengthMm,
    double widthMm,
    @Nullable Pose deviation,
    double uMm,
    double uRotationDeg) {

  /** How the sample is called in messages. */
  public String id() {
    return column + "/" + row + "/" + ref;
  }
}
