package org.padtrue.imaging;

/**
 * One row of the article that detection writes.
 *
 * @param panel panel name
 * @param column board column
 * @param row board row
 * @param ref reference designator, or name of a fiducial
 * @param xMm measured, panel frame
 * @param yMm measured
 * @param rotationDeg measured; NaN for a fiducial: leave the cell empty
 * @param uMm standard uncertainty of x and of y
 * @param uRotationDeg standard uncertainty of the rotation; NaN for a fiducial
 * @param note for a person, may be empty
 */
public record ArticleRow(
    String panel,
    int column,
    int row,
    String ref,
    double xMm,
    double yMm,
    double rotationDeg,
    double uMm,
    double uRotationDeg,
    String note) {}
