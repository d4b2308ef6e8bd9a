package org.padtrue.firstarticle.fitted;

import java.util.Locale;

/**
 * Numbers in sentences: micrometres, degrees, ppm, without needless digits; behind {@code +-}
 * stands one standard error.
 */
public final class NumberWords {
  private NumberWords() {}

  public static String um(double mm) {
    return String.format(Locale.ROOT, "%.0f um", mm * 1e3);
  }

  public static String signedUm(double mm) {
    return String.format(Locale.ROOT, "%+.0f um", mm * 1e3);
  }

  /** A length and its standard error: "x -35 +- 2 um". */
  public static String um(String axis, double mm, double se) {
    int decimals = se < 0.95e-3 ? 1 : 0;
    String v = String.format(Locale.ROOT, "%+." + decimals + "f", mm * 1e3);
    return axis
        + " "
        + v
        + (Double.isFinite(se)
            ? String.format(Locale.ROOT, " +- %." + decimals + "f", se * 1e3)
            : "")
        + " um";
  }

  /** A rotation and its standard error: "+0.036 +- 0.006 deg". */
  public static String deg(double deg, double se) {
    return String.format(Locale.ROOT, "%+.3f", deg)
        + (Double.isFinite(se) ? String.format(Locale.ROOT, " +- %.3f", se) : "")
        + " deg";
  }

  /** A step of a machine without needless zeros: "0.001". */
  public static String step(double v) {
    return new java.math.BigDecimal(String.format(Locale.ROOT, "%.6f", v))
        .stripTrailingZeros()
        .toPlainString();
  }

  public static String p(double p) {
    if (Double.isNaN(p)) {
      return "no test";
    }
    return p < 1e-4 ? "p < 0.0001" : String.format(Locale.ROOT, "p = %.2g", p);
  }
}
