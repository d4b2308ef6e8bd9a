package org.padtrue.report.plot;

import java.math.BigDecimal;
import java.math.MathContext;

/** Short texts in charts. */
final class Labels {
  private Labels() {}

  /** A number to three significant digits without exponent or trailing zeros. */
  static String number(double v) {
    if (!Double.isFinite(v)) {
      return "-";
    }
    BigDecimal b = new BigDecimal(v).round(new MathContext(3)).stripTrailingZeros();
    return b.signum() == 0 ? "0" : b.toPlainString();
  }

  /** A name cut to a length. */
  static String cut(String name, int most) {
    return name.length() <= most ? name : name.substring(0, most - 1) + "\u2026";
  }
}
