package org.padtrue.load.names;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/** Numbers within names and sentences. */
final class Numbers {
  private Numbers() {}

  /** At most three decimals, no trailing zeros. */
  static String plain(double v) {
    BigDecimal d = BigDecimal.valueOf(v).setScale(3, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return (d.scale() < 0 ? d.setScale(0) : d).toPlainString();
  }

  /** A number of a name, NaN where there is none. */
  static double of(@Nullable String text, double unit) {
    return text == null || text.isEmpty() ? Double.NaN : Double.parseDouble(text) * unit;
  }

  /** True when both are the same within a tolerance, or the first is not stated. */
  static boolean fits(double stated, double is, double tolerance) {
    return Double.isNaN(stated) || Math.abs(stated - is) <= tolerance + 1e-9;
  }
}
