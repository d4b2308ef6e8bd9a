package org.padtrue.report.record;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as the record shows them: mm to a micrometre, degrees to a hundredth. */
public final class Figures {
  private static final int FILE_DECIMALS = 6;

  private Figures() {}

  /** A value in the unit of a kind; empty when not known. */
  public static String shown(double v, CharacteristicKind kind) {
    return shown(v, kind == CharacteristicKind.ROTATION ? 2 : 3);
  }

  /** A fixed number of decimals, never "-0"; empty when not known. */
  public static String shown(double v, int decimals) {
    if (!Double.isFinite(v)) {
      return "";
    }
    String s = String.format(Locale.ROOT, "%." + decimals + "f", v);
    return s.startsWith("-") && s.chars().noneMatch(c -> c >= '1' && c <= '9') ? s.substring(1) : s;
  }

  /** The same with a sign; a plain 0 stays plain. */
  public static String signed(double v, int decimals) {
    String s = shown(v, decimals);
    return v > 0 && s.chars().anyMatch(c -> c >= '1' && c <= '9') ? "+" + s : s;
  }

  /** As few decimals as say it, six at most: a tolerance of 0.20 is 0.2. */
  public static String plain(double v) {
    if (!Double.isFinite(v)) {
      return "";
    }
    BigDecimal d =
        BigDecimal.valueOf(v).setScale(FILE_DECIMALS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return d.signum() == 0 ? "0" : d.toPlainString();
  }

  /** A requirement: "12.300 to 12.700 mm", "12.500 mm" without a limit, "margin ≥ 0 mm". */
  public static String requirement(Characteristic c) {
    CharacteristicKind k = c.kind();
    String unit = k == CharacteristicKind.ROTATION ? "\u00b0" : " mm";
    if (k == CharacteristicKind.LAND_FIT) {
      return "margin \u2265 0" + unit;
    }
    if (Double.isNaN(c.upper())) {
      return shown(c.nominal(), k) + unit;
    }
    return shown(c.lower(), k) + " to " + shown(c.upper(), k) + unit;
  }
}
