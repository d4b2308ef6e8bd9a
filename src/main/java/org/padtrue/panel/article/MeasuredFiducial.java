package org.padtrue.panel.article;

import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Fiducial;

/**
 * A fiducial that the article measured.
 *
 * @param panel panel name
 * @param board its board; {@link BoardIndex#ONE} for panel scope
 * @param fiducial the nominal fiducial
 * @param nominalXMm nominal in the panel frame, mm
 * @param nominalYMm nominal in the panel frame, mm
 * @param dxMm measured minus nominal, panel frame, mm
 * @param dyMm measured minus nominal, panel frame, mm
 * @param uMm standard uncertainty, mm; NaN when none
 */
public record MeasuredFiducial(
    String panel,
    BoardIndex board,
    Fiducial fiducial,
    double nominalXMm,
    double nominalYMm,
    double dxMm,
    double dyMm,
    double uMm) {}
