package org.padtrue.imaging;

import java.util.List;

/**
 * How a picture lies on the panel.
 *
 * @param picture file name
 * @param registeredOn fiducials, lands, parts
 * @param family similarity, affine, homography
 * @param pxPerMm scale at the panel's middle
 * @param rotationDeg direction of the panel's x in the picture, counter-clockwise
 * @param mirrored the picture shows the panel as seen through from behind
 * @param tiltDeg tilt of the view off the vertical, from unequal scales; 0 for a similarity
 * @param residualMm root mean square distance of what was used from the map; NaN without redundancy
 * @param redundancy measured coordinates less parameters
 * @param uncertaintyMm standard uncertainty of the map at the panel's middle
 * @param marks every fiducial
 * @param notes what a reader should know, one sentence each
 */
public record MapReport(
    String picture,
    RegisteredOn registeredOn,
    MapFamily family,
    double pxPerMm,
    double rotationDeg,
    boolean mirrored,
    double tiltDeg,
    double residualMm,
    int redundancy,
    double uncertaintyMm,
    List<MarkReport> marks,
    List<String> notes) {
  public MapReport {
    marks = List.copyOf(marks);
    notes = List.copyOf(notes);
  }
}
