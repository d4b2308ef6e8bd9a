package org.padtrue.firstarticle.result;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one panel shows.
 *
 * @param panel its name
 * @param article file it came from
 * @param family family in use
 * @param transform estimates
 * @param standardErrors their standard errors; 0 where the family lacks the term
 * @param array array error, or null for one board or where the choice leaves it out
 * @param families the candidates
 * @param centroid mean position of what was measured, mm
 * @param shiftAtCentroid fitted shift there, mm
 * @param shiftAtCentroidSe its standard errors, mm
 * @param fiducials the fiducials' own fit beside the parts' fit, or null when none were measured
 */
public record PanelResult(
    String panel,
    String article,
    String family,
    TransformValues transform,
    TransformValues standardErrors,
    @Nullable ArrayError array,
    List<FamilyLine> families,
    Xy centroid,
    Xy shiftAtCentroid,
    Xy shiftAtCentroidSe,
    @Nullable FiducialFit fiducials) {}
