package org.padtrue.drift.hint;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

/** How sentences spell numbers, dates and lists: micrometres for less than a mm, times in UTC. */
public final class SpelledNumbers {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private SpelledNumbers() {}

  public static String time(Instant t) {
    return MINUTE.format(t);
  }

  /** The day: no creep or forecast is known to the minute. */
  public static String day(Instant t) {
    return DAY.format(t);
  }

  /** A value with its unit. */
  public static String value(double v, String unit) {
    return numberAndUnit(v, unit, 0.2 * v);
  }

  /** A value with its sign and unit, as many digits as the uncertainty bears. */
  public static String signed(double v, String unit, double uncertainty) {
    return (v > 0 ? "+" : "") + numberAndUnit(v, unit, uncertainty);
  }

  /** Value with sign, plus or minus one standard error, and unit. */
  public static String plusMinus(double v, double se, String unit) {
    double f = factor(v, unit);
    String sign = v > 0 ? "+" : "";
    return sign + text(f * v, f * se) + " \u00b1 " + text(f * se, f * se) + " " + unit(v, unit);
  }

  private static String numberAndUnit(double v, String unit, double uncertainty) {
    double f = factor(v, unit);
    return text(f * v, f * uncertainty) + " " + unit(v, unit);
  }

  /** A number with two digits of its uncertainty; mm become micrometres. */
  static String number(double v, String unit, double uncertainty) {
    double f = unit.equals("mm") ? 1000 : 1;
    return text(f * v, f * uncertainty);
  }

  /** The same with its sign. */
  public static String signedNumber(double v, String unit, double uncertainty) {
    return (v > 0 ? "+" : "") + number(v, unit, uncertainty);
  }

  private static String text(double v, double uncertainty) {
    double u = Math.abs(uncertainty);
    int digits =
        u > 0 && Double.isFinite(u)
            ? (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(u))))
            : 2;
    String s = String.format(Locale.ROOT, "%." + digits + "f", v);
    return s.matches("-0(\\.0*)?") ? s.substring(1) : s;
  }

  // From a millimetre on micrometres only add noughts.
  private static boolean small(double v) {
    return Math.abs(v) < 0.9995;
  }

  private static double factor(double v, String unit) {
    return unit.equals("mm") && small(v) ? 1000 : 1;
  }

  private static String unit(double v, String unit) {
    return unit.equals("mm") && !small(v) ? "mm" : unit(unit);
  }

  public static String unit(String unit) {
    return switch (unit) {
      case "mm" -> "\u00b5m";
      case "deg" -> "degrees";
      default -> unit;
    };
  }

  /** a, b and c. */
  public static String list(List<String> items) {
    int n = items.size();
    return n < 2
        ? String.join("", items)
        : String.join(", ", items.subList(0, n - 1)) + " and " + items.get(n - 1);
  }
}
