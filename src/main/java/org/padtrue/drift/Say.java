package org.padtrue.drift;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

/** How sentences spell numbers, dates and lists: micrometres for mm, times in UTC. */
final class Say {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  private Say() {}

  static String time(Instant t) {
    return DAY.format(t);
  }

  /** A value with its unit. */
  static String value(double v, String unit) {
    return number(v, unit) + " " + unit(unit);
  }

  /** A value with its sign and unit. */
  static String signed(double v, String unit) {
    return (v > 0 ? "+" : "") + value(v, unit);
  }

  /** Value, plus or minus, and unit; as many digits as the uncertainty bears. */
  static String plusMinus(double v, double u, String unit) {
    return number(v, unit, u) + " \u00b1 " + number(u, unit, u) + " " + unit(unit);
  }

  static String number(double v, String unit) {
    return number(v, unit, 0.2 * v);
  }

  /** A number with two digits of its uncertainty. */
  static String number(double v, String unit, double uncertainty) {
    double factor = unit.equals("mm") ? 1000 : 1;
    double u = Math.abs(factor * uncertainty);
    int digits =
        u > 0 && Double.isFinite(u)
            ? (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(u))))
            : 2;
    String s = String.format(Locale.ROOT, "%." + digits + "f", factor * v);
    return s.matches("-0(\\.0*)?") ? s.substring(1) : s;
  }

  static String unit(String unit) {
    return switch (unit) {
      case "mm" -> "\u00b5m";
      case "deg" -> "degrees";
      default -> unit;
    };
  }

  /** a, b and c. */
  static String list(List<String> items) {
    int n = items.size();
    return n < 2
        ? String.join("", items)
        : String.join(", ", items.subList(0, n - 1)) + " and " + items.get(n - 1);
  }
}
