package org.padtrue.load.names;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Sizes of chips: the code in hundredths of an inch (EIA) and in tenths of a millimetre (JEITA, IEC
 * 60115-8), and length and width in mm. Source: the standards' common table of codes; from memory.
 */
enum ChipSize {
  I008004("008004", "0201", 0.25, 0.125),
  I01005("01005", "0402", 0.4, 0.2),
  I0201("0201", "0603", 0.6, 0.3),
  I0402("0402", "1005", 1.0, 0.5),
  I0603("0603", "1608", 1.6, 0.8),
  I0805("0805", "2012", 2.0, 1.25),
  I0806("0806", "2016", 2.0, 1.6),
  I1008("1008", "2520", 2.5, 2.0),
  I1206("1206", "3216", 3.2, 1.6),
  I1210("1210", "3225", 3.2, 2.5),
  I1806("1806", "4516", 4.5, 1.6),
  I1808("1808", "4520", 4.5, 2.0),
  I1812("1812", "4532", 4.5, 3.2),
  I2010("2010", "5025", 5.0, 2.5),
  I2220("2220", "5750", 5.7, 5.0),
  I2410("2410", "6125", 6.1, 2.5),
  I2512("2512", "6332", 6.3, 3.2),
  I2920("2920", "7351", 7.3, 5.1);

  private final String inch;
  private final String metric;
  private final double length;
  private final double width;

  ChipSize(String inch, String metric, double length, double width) {
    this.inch = inch;
    this.metric = metric;
    this.length = length;
    this.width = width;
  }

  double lengthMm() {
    return length;
  }

  double widthMm() {
    return width;
  }

  /** "1.6 x 0.8 mm". */
  String words() {
    return Numbers.plain(length) + " x " + Numbers.plain(width) + " mm";
  }

  static Optional<ChipSize> ofInch(String code) {
    return Arrays.stream(values()).filter(s -> s.inch.equals(code)).findFirst();
  }

  static Optional<ChipSize> ofMetric(String code) {
    // 2.0 x 1.2, 6.4 x 3.2, 7.4 x 5.1 and 6.1 x 2.7 are rounded otherwise by some
    String c = code.equals("2012") || code.equals("2013") ? "2012" : code;
    String d =
        switch (c) {
          case "6432", "6331" -> "6332";
          case "7451" -> "7351";
          case "6127" -> "6125";
          default -> c;
        };
    return Arrays.stream(values()).filter(s -> s.metric.equals(d)).findFirst();
  }

  /** The size whose chip is about so long and so wide, or null. */
  static @Nullable ChipSize of(double length, double width) {
    return Arrays.stream(values())
        .filter(s -> Math.abs(s.length - length) < 0.11 && Math.abs(s.width - width) < 0.11)
        .findFirst()
        .orElse(null);
  }

  /** True when a name's tenths of a millimetre are this size's own. */
  boolean is(double length, double width) {
    return Math.abs(this.length - length) < 0.055 && Math.abs(this.width - width) < 0.055;
  }

  /** True when one code is the other's in the other unit. */
  static boolean same(String a, String b) {
    return Arrays.stream(values())
        .anyMatch(
            s -> s.inch.equals(a) && s.metric.equals(b) || s.inch.equals(b) && s.metric.equals(a));
  }

  /** Of two codes of one size the one in inch. */
  static String inchOf(List<String> codes) {
    return ofInch(codes.get(0)).filter(s -> s.metric.equals(codes.get(1))).isPresent()
        ? codes.get(0)
        : codes.get(1);
  }

  /** The other size that a code could mean, if it is read in the other unit; else null. */
  static @Nullable ChipSize otherReading(String code) {
    return ofInch(code).isPresent() ? ofMetric(code).orElse(null) : null;
  }
}
