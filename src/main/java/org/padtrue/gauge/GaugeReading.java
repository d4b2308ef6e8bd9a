package org.padtrue.gauge;

/**
 * One reading of a gauge study: what one person read of one placement once.
 *
 * @param ref the placement, by a name that is unique in the study: reference designator, with the
 *     board where there are several ("1/2/R7")
 * @param operator who or what read it; one name throughout when it is always the same
 * @param trial number or name of the repeat; all readings of one operator with one trial and turn
 *     belong to one registration of the panel
 * @param turned true when the panel lay turned by 180 degrees; deviations are nevertheless in the
 *     panel's own frame
 * @param dxMm deviation (measured minus nominal) along the panel's own x, mm
 * @param dyMm deviation along the panel's own y, mm
 * @param dRotationDeg deviation in rotation, degrees; NaN not measured
 * @param line line in the file, for messages; 0 when none
 */
public record GaugeReading(
    String ref,
    String operator,
    String trial,
    boolean turned,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    int line) {}
