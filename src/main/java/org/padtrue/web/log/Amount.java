package org.padtrue.web.log;

import org.padtrue.web.server.ShownNumbers;

/**
 * How a value of the log is shown: mm become micrometres, digits follow its standard error.
 *
 * @param factor shown over stored
 * @param unit as shown
 */
record Amount(double factor, String unit) {
  static Amount of(String stored) {
    return switch (stored) {
      case "mm" -> new Amount(1000, "\u00b5m");
      case "deg" -> new Amount(1, "\u00b0");
      default -> new Amount(1, stored);
    };
  }

  /** The value with its sign. */
  String value(double v, double standardError) {
    return ShownNumbers.signed(factor * v, decimals(v, standardError));
  }

  /** The standard error; a dash when it is not known. */
  String error(double v, double standardError) {
    return ShownNumbers.number(factor * standardError, decimals(v, standardError));
  }

  /** "+12.3 ± 2.1 µm". */
  String both(double v, double standardError) {
    String known = Double.isFinite(standardError) ? " \u00b1 " + error(v, standardError) : "";
    return value(v, standardError) + known + " " + unit;
  }

  private int decimals(double v, double standardError) {
    double by = Double.isFinite(standardError) && standardError > 0 ? standardError : v / 10;
    double a = Math.abs(factor * by);
    return a >= 9.95 ? 0 : a >= 0.995 ? 1 : a >= 0.0995 ? 2 : a >= 0.00995 ? 3 : 4;
  }
}
