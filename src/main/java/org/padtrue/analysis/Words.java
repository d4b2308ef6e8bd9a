package org.padtrue.analysis;

import java.util.Locale;

/** Numbers in sentences: micrometres, degrees, ppm, with a true minus and no needless digits. */
final class Words {
  private Words() {}

  static String um(double mm) {
    return String.format(Locale.ROOT, "%.0f um", mm * 1e3);
  }

  static String signedUm(double mm) {
    return String.format(Locale.ROOT, "%+.0f um", mm * 1e3);
  }

  static String deg(double deg) {
    return String.format(Locale.ROOT, "%.3f deg", deg);
  }

  static String p(double p) {
    if (Double.isNaN(p)) {
      return "no test";
    }
    return p < 1e-4 ? "p < 0.0001" : String.format(Locale.ROOT, "p = %.2g", p);
  }

  static String mm(double v) {
    return new java.math.BigDecimal(v)
        .setScale(4, java.math.RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }
}
