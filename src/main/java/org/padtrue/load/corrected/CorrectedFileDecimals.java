package org.padtrue.load.corrected;

import java.math.BigDecimal;
import org.padtrue.quantity.LengthUnit;

/** How many decimals a number needs to carry the machine's resolution. */
final class CorrectedFileDecimals {
  /** A resolution such as 1/3 would ask for any number. */
  private static final int MOST = 6;

  private CorrectedFileDecimals() {}

  /** For a length in a unit: those of the resolution itself where it is a plain number there. */
  static int of(double resolutionMm, LengthUnit unit) {
    BigDecimal r = BigDecimal.valueOf(resolutionMm);
    return switch (unit) {
      case MM -> plain(r);
      case UM -> plain(r.movePointRight(3));
      case MIL, INCH ->
          (int) Math.max(0, Math.min(MOST, Math.ceil(-Math.log10(resolutionMm / unit.mm()))));
    };
  }

  /** For an angle in degrees. */
  static int of(double resolutionDeg) {
    return plain(BigDecimal.valueOf(resolutionDeg));
  }

  private static int plain(BigDecimal r) {
    return Math.max(0, Math.min(MOST, r.stripTrailingZeros().scale()));
  }
}
