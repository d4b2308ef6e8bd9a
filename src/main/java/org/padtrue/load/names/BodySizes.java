package org.padtrue.load.names;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.StatedName.Style;

/**
 * Names that state the kind of a part and the size of its body, though its lands differ from maker
 * to maker: inductors, LEDs, aluminium capacitors; and moulded capacitors by their EIA code.
 */
final class BodySizes {
  private static final String N = "(\\d+(?:\\.\\d+)?)";
  private static final String LANDS = "its lands differ from maker to maker";
  private static final String PINS = ", and the name does not state its number of terminals";

  /** EIA-535: length and width in tenths of a millimetre, then the greatest height. */
  private static final Pattern MOULDED =
      Pattern.compile(
          "(?:CP?_)?(?:EIA-?|CASE[-_][A-Z][-_])(\\d{2})(\\d{2})(?:-(\\d{2}))?(?:[-_].*)?");

  private static final Pattern CAP_LETTERED =
      Pattern.compile("CAP-SMD_L(3\\.5|6\\.0|7\\.3)-W(2\\.8|3\\.2|4\\.3)(?:[-_].*)?");
  private static final Pattern XTAL_IPC =
      Pattern.compile("(?:XTAL|OSC)[CS]*(\\d{3})X(\\d{3})X(\\d{2,3})-(\\d)[LMN]?");
  private static final Pattern PINS_BEHIND = Pattern.compile("[-_]([2-9])P(?:IN)?(?:[-_].*)?$");
  private static final Pattern ARRAY =
      Pattern.compile("(?:.*[-_])?ARRAY(?:[-_].*)?[-_](2|4)X(0402|0603)(?:[-_].*)?");
  private static final Pattern CAN =
      Pattern.compile("CP?_ELEC_(?:D)?" + N + "X(?:L)?" + N + "(?:MM)?(.*)");
  private static final Pattern CAN_IPC = Pattern.compile("CAPAE(\\d{3,4})X(\\d{3,4})[LMN]?");
  private static final Pattern INDUCTOR =
      Pattern.compile(
          "(?:L|IND|INDUCTOR)[-_](?:.*[-_])?"
              + N
              + "X"
              + N
              + "(?:X[\\d.]+)?(?:MM)?(?:_H"
              + N
              + "(?:MM)?)?(.*)");
  private static final Pattern INDUCTOR_IPC =
      Pattern.compile("INDP?M(\\d{2,3})(\\d{2})X(\\d{2,4})[LMN]?");
  private static final Pattern LED =
      Pattern.compile("LED[-_].*?(?:SMD_)?(\\d)P[-_]L" + N + "-W" + N + "(.*)");
  private static final Pattern LED_BARE =
      Pattern.compile("LED[-_](?:.*[-_])?" + N + "X" + N + "MM(?:_.*)?");
  private static final Pattern LED_CODE =
      Pattern.compile(
          "LED[-_](?:[A-Z0-9]+[-_])*?(?:SMD)?(10|15|16|20|32|35|50)(10|15|20|27|28|35|50)(?:-(\\d))?(_.*)?");

  /** Common practice: side and height in tenths of a millimetre, then the inductance. */
  private static final Pattern NUMBER =
      Pattern.compile("([A-Z]{2,6})?([2-9]\\d)(\\d{2}|XX)(\\d{2})?(?:\\dR\\d.*|[-A-Z].*)?");

  private static final String SAYS = "the number in '%s' seems to say so; ";
  // 2.5 mm wide ones are 2.0 mm deep
  private static final double NARROW = 2.5;
  private static final Pattern COIL = Pattern.compile("(?:L|IND|INDUCTOR|COIL)[-_].*");

  // an aluminium capacitor's base is larger than its can
  private static final double BASE_MM = 0.3;

  private BodySizes() {}

  /** What people call a kind of part. */
  static String words(String family) {
    return switch (family) {
      case "" -> "package";
      case "CAN" -> "aluminium capacitor";
      case "MOULDED" -> "moulded part";
      case "IND" -> "inductor";
      case "XTAL" -> "crystal";
      default -> family;
    };
  }

  /** A crystal of a chip's size with its number of terminals: SMD3225-4P. */
  static @Nullable StatedName crystal(String name, StatedName chip) {
    Matcher m = PINS_BEHIND.matcher(NameReader.bare(name));
    ChipSize size = ChipSize.ofMetric(String.valueOf(chip.code())).orElse(null);
    return size == null || !m.find()
        ? null
        : sized(
            "XTAL",
            Integer.parseInt(m.group(1)),
            size.lengthMm(),
            size.widthMm(),
            Double.NaN,
            LANDS);
  }

  /** A crystal of a stated size. */
  static StatedName crystal(StatedName s) {
    double longer = Math.max(s.length(), s.width());
    double shorter = Math.min(s.length(), s.width());
    return sized("XTAL", 0, longer, shorter, Double.NaN, LANDS + PINS);
  }

  static @Nullable StatedName read(String s) {
    Matcher m = MOULDED.matcher(s);
    if (m.matches()) {
      double height = Numbers.of(m.group(3), 0.1);
      return sized("MOULDED", 2, tenth(m, 1), tenth(m, 2), height, "");
    }
    m = XTAL_IPC.matcher(s);
    if (m.matches()) {
      return sized(
          "XTAL",
          Integer.parseInt(m.group(4)),
          Numbers.of(m.group(1), 0.01),
          Numbers.of(m.group(2), 0.01),
          Numbers.of(m.group(3), 0.01),
          LANDS);
    }
    m = CAP_LETTERED.matcher(s);
    if (m.matches()) {
      return sized(
          "MOULDED",
          2,
          Numbers.of(m.group(1), 1),
          Numbers.of(m.group(2), 1),
          Double.NaN,
          "the name does not state its height");
    }
    m = ARRAY.matcher(s);
    if (m.matches()) {
      int chips = Integer.parseInt(m.group(1));
      double along = m.group(2).equals("0402") ? 1.0 : 1.6;
      double pitch = m.group(2).equals("0402") ? 0.5 : 0.8;
      String ends =
          "its code is read as inch"
              + (s.contains("CONCAVE") ? ", its ends are concave, the library's convex" : "");
      return sized("RA", 2 * chips, along, chips * pitch, Double.NaN, ends);
    }
    m = CAN.matcher(s);
    if (m.matches()) {
      return can(Numbers.of(m.group(1), 1), Numbers.of(m.group(2), 1));
    }
    m = CAN_IPC.matcher(s);
    if (m.matches()) {
      return can(Numbers.of(m.group(1), 0.01) - BASE_MM, Numbers.of(m.group(2), 0.01));
    }
    m = INDUCTOR_IPC.matcher(s);
    if (m.matches()) {
      return sized("IND", 2, tenth(m, 1), tenth(m, 2), Numbers.of(m.group(3), 0.01), LANDS);
    }
    m = INDUCTOR.matcher(s);
    if (m.matches() && !OpenNames.several(s)) {
      return sized(
          "IND",
          2,
          Numbers.of(m.group(1), 1),
          Numbers.of(m.group(2), 1),
          Numbers.of(m.group(3), 1),
          LANDS + (m.group(3) == null ? ", and the name does not state its height" : ""));
    }
    return led(s);
  }

  /**
   * An inductor's size from its maker's number: 4018 is 4.0 mm wide and 1.8 mm high. Numbers of two
   * like halves are left alone (some count in hundredths of an inch), and so are those below 20
   * (whole millimetres, rounded).
   */
  static @Nullable StatedName numbered(String name) {
    String bare = NameReader.bare(name);
    boolean coil = COIL.matcher(bare).matches();
    for (String piece : bare.split("[-_()/,;\\s]+")) {
      Matcher m = NUMBER.matcher(piece);
      if (m.matches()
          && (coil || m.group(1) != null)
          && !m.group(2).equals(m.group(3))
          && !OpenNames.several(name)) {
        if (m.group(4) != null) {
          // length, width and height: 252012
          double high = Numbers.of(m.group(4), 0.1);
          return sized("IND", 2, tenth(m, 2), tenth(m, 3), high, SAYS.formatted(m.group()) + LANDS);
        }
        double side = tenth(m, 2);
        double height = m.group(3).equals("XX") ? Double.NaN : tenth(m, 3);
        String code = m.group(2) + m.group(3);
        ChipSize chip = ChipSize.ofMetric(code).orElse(null);
        String says = SAYS.formatted(m.group()) + LANDS;
        if (chip == null && side == NARROW) {
          chip = ChipSize.I1008;
        }
        if (chip != null) {
          return sized("IND", 2, chip.lengthMm(), chip.widthMm(), Double.NaN, says);
        }
        return height > side ? null : sized("IND", 2, side, side, height, says);
      }
    }
    return null;
  }

  private static @Nullable StatedName led(String s) {
    Matcher m = LED.matcher(s);
    if (m.matches()) {
      int pins = Integer.parseInt(m.group(1));
      double x = Numbers.of(m.group(2), 1);
      return sized("LED", pins, x, Numbers.of(m.group(3), 1), Double.NaN, LANDS);
    }
    m = LED_BARE.matcher(s);
    if (m.matches()) {
      double x = Numbers.of(m.group(1), 1);
      return sized("LED", 0, x, Numbers.of(m.group(2), 1), Double.NaN, LANDS + PINS);
    }
    m = LED_CODE.matcher(s);
    if (!m.matches()) {
      return null;
    }
    boolean pins = m.group(3) != null;
    return sized(
        "LED",
        pins ? Integer.parseInt(m.group(3)) : 0,
        tenth(m, 1),
        tenth(m, 2),
        Double.NaN,
        LANDS + (pins ? "" : PINS));
  }

  private static StatedName can(double diameter, double height) {
    return sized(
        "CAN", 2, diameter, Double.NaN, height, "its base and lands differ from maker to maker");
  }

  private static StatedName sized(
      String family, int pins, double length, double width, double height, String remark) {
    double x = Double.NaN;
    return new StatedName(
        Style.SIZED, family, pins, 0, x, x, length, width, height, null, null, x, remark);
  }

  private static double tenth(Matcher m, int group) {
    return Numbers.of(m.group(group), 0.1);
  }
}
