package org.padtrue.load.article;

/**
 * One reading of a gauge study as its file has it.
 *
 * @param id the placement: its ref, with the board ("1/2/R7") where the file or job has several
 * @param operator who read it
 * @param trial which repeat
 * @param turned true when the panel lay turned by 180 degrees
 * @param dxMm measured minus nominal, mm; minus the first reading of the placement where no nominal
 *     is known
 * @param dyMm likewise, mm
 * @param dRotationDeg likewise, degrees; NaN not measured
 * @param line line in the file
 */
public record GaugeRepeat(
    String id,
    String operator,
    String trial,
    boolean turned,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    int line) {}
