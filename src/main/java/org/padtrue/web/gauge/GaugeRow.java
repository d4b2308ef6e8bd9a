package org.padtrue.web.gauge;

import java.math.BigDecimal;
import org.padtrue.web.server.ShownNumbers;

/**
 * One reading of a study, NaN while it is not read.
 *
 * @param session 1-based
 * @param ref placement
 * @param operator who reads
 * @param trial 1-based
 * @param turned 0 or 180 degrees
 * @param dxMm measured minus nominal, mm
 * @param dyMm the same in y
 * @param dRotationDeg the same for rotation, degrees
 */
record GaugeRow(
    int session,
    String ref,
    String operator,
    int trial,
    int turned,
    double dxMm,
    double dyMm,
    double dRotationDeg) {

  boolean read() {
    return !Double.isNaN(dxMm);
  }

  GaugeRow with(double dx, double dy, double turn) {
    return new GaugeRow(session, ref, operator, trial, turned, dx, dy, turn);
  }

  /** What was read, as a page carries it to say what it showed. */
  String values() {
    return number(dxMm) + "," + number(dyMm) + "," + number(dRotationDeg);
  }

  /** What was read, for people. */
  String words() {
    return read()
        ? "dx "
            + ShownNumbers.plain(dxMm)
            + ", dy "
            + ShownNumbers.plain(dyMm)
            + " mm"
            + (Double.isNaN(dRotationDeg)
                ? ""
                : ", rotation " + ShownNumbers.plain(dRotationDeg) + "\u00b0")
        : "nothing";
  }

  String csv() {
    return session
        + ","
        + quoted(ref)
        + ","
        + quoted(operator)
        + ","
        + trial
        + ","
        + turned
        + ","
        + number(dxMm)
        + ","
        + number(dyMm)
        + ","
        + number(dRotationDeg);
  }

  private static String quoted(String s) {
    return "\"" + s.replace("\"", "\"\"") + "\"";
  }

  private static String number(double v) {
    return Double.isNaN(v) ? "" : new BigDecimal(Double.toString(v)).toPlainString();
  }
}
