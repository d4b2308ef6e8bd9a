package org.padtrue.report.plot.ink;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;

/** Short texts in charts. */
public final class Labels {
  private Labels() {}

  /** A number to three significant digits without exponent or trailing zeros. */
  public static String number(double v) {
    if (!Double.isFinite(v)) {
      return "-";
    }
    BigDecimal b = new BigDecimal(v).round(new MathContext(3)).stripTrailingZeros();
    return b.signum() == 0 ? "0" : b.toPlainString();
  }

  /** A number below ten with one decimal, else a whole one; a true minus. */
  public static String tenth(double v) {
    String s = String.format(Locale.ROOT, Math.abs(v) < 9.95 ? "%.1f" : "%,.0f", v);
    return s.equals("0.0") || s.equals("-0.0") ? "0" : s.replace('-', '\u2212');
  }

  /** A name cut to a length. */
  public static String cut(String name, int most) {
    return name.length() <= most ? name : name.substring(0, most - 1) + "\u2026";
  }
}
