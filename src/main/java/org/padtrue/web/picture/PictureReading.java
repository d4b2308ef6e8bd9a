package org.padtrue.web.picture;

import org.padtrue.imaging.pose.ReadingStatus;

/**
 * What a picture said of one placement, kept beside the article until a person has looked.
 *
 * @param key panel/column/row/ref
 * @param part part type
 * @param status as the detection names it
 * @param shot index of the picture
 * @param xPx the part's middle in it
 * @param yPx likewise
 * @param dxMm measured minus nominal, mm; NaN when nothing was measured
 * @param dyMm likewise
 * @param dRotationDeg likewise, degrees
 * @param uMm standard uncertainty, mm
 * @param uRotationDeg standard uncertainty, degrees
 * @param poseDeg rotation of the part on the panel, for drawing, degrees
 * @param score 0 to 1
 * @param length outline along the part's x, mm
 * @param width outline along its y, mm
 * @param note one sentence, or empty
 */
record PictureReading(
    String key,
    String part,
    String status,
    int shot,
    double xPx,
    double yPx,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    double uMm,
    double uRotationDeg,
    double poseDeg,
    double score,
    double length,
    double width,
    String note) {
  static final String FOUND = ReadingStatus.FOUND.words();
  static final String DOUBTFUL = ReadingStatus.DOUBTFUL.words();

  boolean measured() {
    return Double.isFinite(dxMm);
  }
}
