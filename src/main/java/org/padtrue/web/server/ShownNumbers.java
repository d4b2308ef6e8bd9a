package org.padtrue.web.server;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers on pages: no exponent, no needless digits, a dash for what is not known. */
public final class ShownNumbers {
  public static final String UNKNOWN = "\u2013";

  private ShownNumbers() {}

  /** A number for a script: empty when not known. */
  public static String plain(double v) {
    return Double.isFinite(v)
        ? BigDecimal.valueOf(v)
            .setScale(7, RoundingMode.HALF_EVEN)
            .stripTrailingZeros()
            .toPlainString()
        : "";
  }

  /** A length with sign, down to a tenth of a micrometre: "+0.025 mm". */
  public static String mm(double mm) {
    return Double.isFinite(mm) ? signed(mm, 4) + " mm" : UNKNOWN;
  }

  /** A length in micrometres: "+25", "-3.1". */
  public static String um(double mm) {
    double v = mm * 1000;
    return Double.isFinite(v) ? signed(v, Math.abs(v) >= 9.95 ? 0 : 1) : UNKNOWN;
  }

  /** A number with sign and at most so many decimals. */
  public static String signed(double v, int decimals) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    String s = plainText(v, decimals);
    return s.startsWith("-") ? "\u2212" + s.substring(1) : s.equals("0") ? s : "+" + s;
  }

  /** A number without sign where it is positive. */
  public static String number(double v, int decimals) {
    return Double.isFinite(v) ? plainText(v, decimals).replace('-', '\u2212') : UNKNOWN;
  }

  private static String plainText(double v, int decimals) {
    String s = String.format(Locale.ROOT, "%." + decimals + "f", v);
    s = s.contains(".") ? s.replaceAll("0+$", "").replaceAll("\\.$", "") : s;
    return s.equals("-0") ? "0" : s;
  }

  /** One or many. */
  public static String count(long n, String noun) {
    return n + " " + noun + (n == 1 ? "" : "s");
  }
}
