package org.padtrue.imaging.map;

import java.util.ArrayList;
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
  public static final String MIRRORED =
      "the picture is mirrored; it was measured as seen from the placed side"
          + " (if it was not taken so, check 'side' and 'axes' in the job)";

  public MapReport {
    marks = List.copyOf(marks);
    notes = List.copyOf(notes);
  }

  /** The same of the mirrored picture, whose x axis points so. */
  public MapReport mirror(double directionDeg) {
    List<String> said = new ArrayList<>(notes);
    said.add(0, MIRRORED);
    return new MapReport(
        picture,
        registeredOn,
        family,
        pxPerMm,
        directionDeg,
        !mirrored,
        tiltDeg,
        residualMm,
        redundancy,
        uncertaintyMm,
        marks,
        said);
  }
}
