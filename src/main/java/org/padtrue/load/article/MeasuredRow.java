package org.padtrue.load.article;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Levels;
import org.padtrue.panel.article.FaultKind;

/**
 * A row of an article as the file has it, lengths in mm, angles in degrees.
 *
 * @param column 0 when the file does not say
 * @param row 0 when the file does not say
 * @param x measured, NaN when not measured or a deviation is given
 * @param dx measured minus nominal, NaN when a pose is given
 * @param part part type that the file names, or null
 * @param fault what a status says is wrong, or null
 * @param said the file's own words for it, empty when there are none
 */
record MeasuredRow(
    int line,
    String panel,
    int column,
    int row,
    String ref,
    double x,
    double y,
    double rotation,
    double dx,
    double dy,
    double dRotation,
    double u,
    double uRotation,
    Levels levels,
    double order,
    String note,
    @Nullable String part,
    @Nullable FaultKind fault,
    String said) {

  /** True when the row has a position. */
  boolean hasPosition() {
    return !Double.isNaN(x) || !Double.isNaN(dx);
  }
}
