package org.padtrue.load.names;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.StatedName.Style;

/**
 * Reads names of land patterns.
 *
 * <p>IPC-7351B, naming convention (from memory): {@code RESC1608X55N} is a chip of 1.6 x 0.8 mm,
 * 0.55 high; {@code SOP65P640X120-14N} has a pitch of 0.65, a span of 6.40, a height of 1.20 and 14
 * pins; {@code QFN50P500X500X100-33N} a body of 5.00 x 5.00 and 33 terminations. Names with sizes:
 * {@code R_0603_1608Metric}, {@code SOIC-8_3.9x4.9mm_P1.27mm}, {@code
 * LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL}.
 */
final class NameReader {
  private static final String KIND = "(RES|CAP|IND|BEAD|LED|DIO|FUS|THRM|VAR)";
  // density, and lengths that some write behind it: RESC1005X40X25ML05T05
  private static final String DENSITY = "(?:X\\d{2,3})?[LMN]?(?:[LTB]\\d{2,3})*";
  private static final Pattern IPC_CHIP =
      Pattern.compile(KIND + "C(\\d{2})(\\d{2})(?:X(\\d{2,3}))?" + DENSITY);
  private static final Pattern IPC_MOULDED =
      Pattern.compile(KIND + "(?:MP|PM|NM|M)(\\d{2})(\\d{2})(?:X(\\d{2,3}))?" + DENSITY);
  private static final Pattern IPC_MELF =
      Pattern.compile("(RES|DIO|CAP)MELF(\\d{2})(\\d{2})[LMN]?");
  private static final Pattern IPC_SOD =
      Pattern.compile("(SODFL|SOD)(\\d{2})(\\d{2})(?:X(\\d{2,3}))?" + DENSITY);
  private static final Pattern IPC_DUAL =
      Pattern.compile(
          "(SOIC|SOP|SO|SOTFL|SOT|TSOP|SSOP|TSSOP|TO)(\\d{2,3})P(\\d{2,4})X(\\d{2,3})-(\\d{1,3})[LMN]?");
  private static final Pattern IPC_QFP =
      Pattern.compile("(QFP)(\\d{2,3})P(\\d{3,4})X(\\d{3,4})X(\\d{2,3})-(\\d{1,3})[LMN]?");
  private static final Pattern IPC_NO_LEAD =
      Pattern.compile(
          "(P?QFN|P?SON|DFN)(\\d{2,3})P(\\d{3,4})X(\\d{3,4})X(\\d{2,3})[LMN]?-(\\d{1,3})(?:T\\d+(?:X\\d+)?)?(?:V\\d*)?[LMN]?");
  private static final String N = "(\\d+(?:\\.\\d+)?)";
  private static final Pattern IPC_AND_MORE =
      Pattern.compile("([A-Z]+\\d[\\dPXLMNTV]+(?:-\\d+[LMN]?)?)([-_].+)");
  private static final String PACKAGE = "[A-Z]*(?:QFN|QFPN|DFN|SON|SOP|SOIC|SO|QFP|LGA|BGA|LFCSP)";
  private static final String D = "\\d+(?:\\.\\d+)?";
  private static final Pattern SIZED =
      Pattern.compile(
          "(?:(?<front>.+?)[-_](?="
              + PACKAGE
              + "-\\d))?(?<family>[A-Z]+)-(?:II?-)?(?<pins>\\d+)(?:(?:-\\d|_)(?<middle>EP))?"
              + ("_(?<x>" + D + ")X(?<y>" + D + ")(?:MM)?(?:_LAYOUT\\d+X\\d+)?")
              + ("(?:_P(?:ITCH)?(?<pitch>" + D + ")(?:MM)?)?")
              + ("(?:_EP(?<land>" + D + ")X" + D + "MM)?(?<rest>.*)"));
  private static final Pattern LETTERED =
      Pattern.compile(
          "([A-Z]+)(?:-SMD)?-?(\\d+)?[A-Z]{0,2}(?:-(\\d+))?_L"
              + N
              + "-W"
              + N
              + "(?:-P"
              + N
              + ")?(?:-LS"
              + N
              + ")?((?:-(?:EP\\d+(?:\\.\\d+)?|[A-Z]{1,3}))*(?:-\\d)?)(_.*)?");
  private static final Pattern CHIP =
      Pattern.compile(
          "(R|C|L|LED|CHIP-?LED|D|FB|F|FUSE|RES|CAP|IND|BEAD|SMD|CHIP|RC|CC)?[-_ ]?"
              + "(008004|01005|0201|0402|0603|0805|0806|1008|1206|1210|1806|1808|1812|2010|2220|2410|2512|2920"
              + "|1005|1608|2012|2016|2520|3216|3225|4516|4520|4532|5025|5750|6332|6432|201|402|603|805)(?:[-_"
              + " ](\\d{4})METRIC|(M|METRIC))?(.*)");
  private static final Pattern KIND_BEHIND =
      Pattern.compile("[-_ ]?(R|C|L|RES|CAP|IND|BEAD|LED|FUSE)(?:[-_ ].*)?");
  private static final Pattern CRYSTAL =
      Pattern.compile("(?:CRYSTAL|XTAL)_?-?(?:SMD)?_?-?(\\d{4})-?_?(\\d)PIN(?:_.*)?");
  private static final Pattern CRYSTAL_FRONT =
      Pattern.compile("(?:CRYSTAL|XTAL|OSC|OSCILLATOR)[-_].*");
  private static final Pattern CRYSTAL_PINS = Pattern.compile("(?<=[-_])(\\d)-?P(?:IN)?(?=[-_]|$)");
  private static final Pattern CRYSTAL_SIZE =
      Pattern.compile("(?<=_)" + N + "X" + N + "MM|-L" + N + "-W" + N);
  private static final Pattern CAN_LETTERED =
      Pattern.compile("CAP-SMD_BD" + N + "-L[\\d.]+-W[\\d.]+(?:-.*)?");
  private static final Pattern LED_PLCC = Pattern.compile(".*PLCC-?(\\d)_" + N + "X" + N + "MM.*");

  private NameReader() {}

  /** The name without a library in front of it, upper case. */
  static String bare(String name) {
    String s = name.trim();
    return s.substring(s.lastIndexOf(':') + 1).trim().toUpperCase(Locale.ROOT);
  }

  static StatedName read(String name) {
    String s = bare(name);
    StatedName n = ipc(s);
    n = n == null ? ipcAndMore(s) : n;
    n = n == null ? sized(s) : n;
    n = n == null ? others(s) : n;
    return n == null ? chip(s) : n;
  }

  /** "SOIC127P790X216-8N_AB12", "QFN50P400X400X100-25N-D": a standard's name that goes on. */
  private static @Nullable StatedName ipcAndMore(String s) {
    Matcher m = IPC_AND_MORE.matcher(s);
    StatedName n = m.matches() ? ipc(m.group(1)) : null;
    return n == null ? null : n.with(remark(m.group(2)));
  }

  private static @Nullable StatedName ipc(String s) {
    Matcher m = IPC_CHIP.matcher(s);
    if (m.matches()) {
      return StatedName.two(
          Style.IPC_7351, family(m.group(1)), tenth(m, 2), tenth(m, 3), hundredth(m, 4));
    }
    m = IPC_MELF.matcher(s);
    if (m.matches()) {
      return StatedName.two(Style.IPC_7351, "MELF", tenth(m, 2), tenth(m, 3), Double.NaN);
    }
    m = IPC_MOULDED.matcher(s);
    if (m.matches() && !m.group(1).equals("IND")) {
      return StatedName.two(Style.IPC_7351, "MOULDED", tenth(m, 2), tenth(m, 3), hundredth(m, 4));
    }
    m = IPC_SOD.matcher(s);
    if (m.matches()) {
      return StatedName.two(Style.IPC_7351, m.group(1), tenth(m, 2), tenth(m, 3), hundredth(m, 4));
    }
    m = IPC_DUAL.matcher(s);
    double x = Double.NaN;
    if (m.matches()) {
      int all = Integer.parseInt(m.group(5));
      return new StatedName(
          Style.IPC_7351,
          "SO",
          all - middle(all),
          middle(all),
          hundredth(m, 2),
          hundredth(m, 3),
          x,
          x,
          hundredth(m, 4),
          null,
          null,
          x,
          "");
    }
    m = IPC_QFP.matcher(s);
    if (m.matches()) {
      int all = Integer.parseInt(m.group(6));
      return new StatedName(
          Style.IPC_7351,
          "QFP",
          all - middle(all),
          middle(all),
          hundredth(m, 2),
          hundredth(m, 3),
          x,
          x,
          hundredth(m, 5),
          null,
          null,
          x,
          "");
    }
    m = IPC_NO_LEAD.matcher(s);
    if (m.matches()) {
      int all = Integer.parseInt(m.group(6));
      // an odd number counts the middle land
      return new StatedName(
          Style.IPC_7351,
          m.group(1).replace("P", ""),
          all - all % 2,
          all % 2,
          hundredth(m, 2),
          x,
          hundredth(m, 3),
          hundredth(m, 4),
          hundredth(m, 5),
          null,
          null,
          x,
          "");
    }
    return null;
  }

  private static @Nullable StatedName sized(String s) {
    Matcher m = SIZED.matcher(s);
    double x = Double.NaN;
    if (m.matches()) {
      int pins = Integer.parseInt(m.group("pins"));
      double pitch = Numbers.of(m.group("pitch"), 1);
      double first = Numbers.of(m.group("x"), 1);
      double second = Numbers.of(m.group("y"), 1);
      // a row of leads that is longer than the body: the name gives the length first
      boolean turned =
          m.group("family").matches(".*(?:SON|DFN)")
              && (pins / 2 - 1) * pitch > second
              && first > second;
      String front =
          m.group("front") == null ? "" : "the name begins with '" + m.group("front") + "'";
      return new StatedName(
          Style.SIZED,
          m.group("family"),
          pins,
          m.group("middle") == null ? 0 : 1,
          pitch,
          x,
          turned ? second : first,
          turned ? first : second,
          x,
          null,
          null,
          Numbers.of(m.group("land"), 1),
          turned ? "it gives the length first" : front.isEmpty() ? remark(m.group("rest")) : front);
    }
    m = LETTERED.matcher(s);
    if (m.matches() && !m.group(1).equals("CAP")) {
      double along = Numbers.of(m.group(4), 1);
      double across = Numbers.of(m.group(5), 1);
      int pins = m.group(3) != null ? number(m.group(3)) : number(m.group(2));
      boolean two =
          m.group(1).matches("SOD|SM[ABC]F?|SMF|DO|LED|DIO|IND|FUSE|CRYSTAL|LL|MINIMELF|R|C|L");
      boolean middle = m.group(8).contains("-EP");
      // length runs along the row of leads, which is y at rotation 0; two-ended parts lie along x
      return new StatedName(
          Style.LETTERED,
          m.group(1).equals("CRYSTAL") ? "XTAL" : m.group(1),
          two ? 2 : pins,
          middle ? 1 : m.group(1).matches(".*(?:QFN|QFPN|SON|DFN)") ? -1 : 0,
          Numbers.of(m.group(6), 1),
          Numbers.of(m.group(7), 1),
          two ? along : across,
          two ? across : along,
          x,
          null,
          null,
          middle(m.group(8)),
          m.group(1).matches("IND|CRYSTAL")
              ? "its lands differ from maker to maker, and the name does not state its height"
              : remark(m.group(9)));
    }
    return null;
  }

  /** 1 where a number of leads counts the middle land: it is odd, and not that of SOT-23. */
  private static int middle(int all) {
    return all > 5 ? all % 2 : 0;
  }

  /** Side of the middle land of "-BL-EP2.6"; NaN where it is not stated. */
  private static double middle(String tail) {
    Matcher m = Pattern.compile(".*-EP" + N + ".*").matcher(tail);
    return m.matches() ? Numbers.of(m.group(1), 1) : Double.NaN;
  }

  /** "Crystal_2.0x1.6mm_4pin", "CRYSTAL-SMD_4P-L3.2-W2.5-BL". */
  private static @Nullable StatedName crystal(String s) {
    Matcher pins = CRYSTAL_PINS.matcher(s);
    Matcher size = CRYSTAL_SIZE.matcher(s);
    if (!CRYSTAL_FRONT.matcher(s).matches() || !pins.find() || !size.find()) {
      return null;
    }
    int k = size.group(1) != null ? 1 : 3;
    double x = Double.NaN;
    return new StatedName(
        Style.SIZED,
        "XTAL",
        number(pins.group(1)),
        0,
        x,
        x,
        Numbers.of(size.group(k), 1),
        Numbers.of(size.group(k + 1), 1),
        x,
        null,
        null,
        x,
        "its lands differ from maker to maker");
  }

  private static @Nullable StatedName others(String s) {
    StatedName crystal = crystal(s);
    if (crystal != null) {
      return crystal;
    }
    double x = Double.NaN;
    Matcher m = CAN_LETTERED.matcher(s);
    if (m.matches()) {
      return new StatedName(
          Style.SIZED,
          "CAN",
          2,
          0,
          x,
          x,
          Numbers.of(m.group(1), 1),
          x,
          x,
          null,
          null,
          x,
          "its base and lands differ from maker to maker, and the name does not state its height");
    }
    m = CRYSTAL.matcher(s);
    if (m.matches()) {
      int code = Integer.parseInt(m.group(1));
      return new StatedName(
          Style.SIZED,
          "XTAL",
          Integer.parseInt(m.group(2)),
          0,
          x,
          x,
          (code / 100) / 10.0,
          (code % 100) / 10.0,
          x,
          null,
          null,
          x,
          "its lands differ from maker to maker");
    }
    m = LED_PLCC.matcher(s);
    if (m.matches()) {
      return new StatedName(
          Style.SIZED,
          "LED",
          Integer.parseInt(m.group(1)),
          0,
          x,
          x,
          Numbers.of(m.group(2), 1),
          Numbers.of(m.group(3), 1),
          x,
          null,
          null,
          x,
          "its lands differ from maker to maker");
    }
    return BodySizes.read(s);
  }

  private static StatedName chip(String s) {
    Matcher m = CHIP.matcher(s);
    if (!m.matches()) {
      return StatedName.none();
    }
    String rest = m.group(5);
    if (!rest.isEmpty() && !rest.matches("[A-Z]?|[-_ ].*")) {
      return StatedName.none();
    }
    String remark = remark(rest);
    String code = m.group(2);
    if (code.length() == 3) {
      // a spreadsheet took 0603 for a number
      code = "0" + code;
      remark = "its leading zero is lost";
    }
    Matcher behind = KIND_BEHIND.matcher(rest);
    String family =
        m.group(1) != null ? family(m.group(1)) : behind.matches() ? family(behind.group(1)) : "";
    if (code.equals("1005") && m.group(1) == null && m.group(3) == null) {
      remark = "it may be 01005 that has lost its leading zero";
    }
    String metric = m.group(3);
    if (metric != null) {
      ChipSize size = ChipSize.ofInch(code).orElse(null);
      if (size == null || ChipSize.ofMetric(metric).orElse(null) != size) {
        return StatedName.none();
      }
      return StatedName.chip(family, code, false, Double.NaN, remark);
    }
    return StatedName.chip(family, code, m.group(4) == null ? null : true, Double.NaN, remark);
  }

  /** What a tail of a name says against the plain pattern. */
  private static String remark(@Nullable String rest) {
    if (rest == null || rest.isEmpty()) {
      return "";
    }
    if (rest.contains("HANDSOLD")) {
      return "its lands are drawn longer for soldering by hand";
    }
    return "the name goes on with '" + rest.replaceFirst("^[-_ ]", "") + "'";
  }

  private static String family(String letters) {
    return switch (letters) {
      case "RES", "RC" -> "R";
      case "CAP", "CC" -> "C";
      case "IND", "BEAD", "FB" -> "L";
      case "DIO" -> "D";
      case "FUS", "FUSE" -> "F";
      case "CHIPLED", "CHIP-LED" -> "LED";
      case "SMD", "CHIP" -> "";
      default -> letters;
    };
  }

  private static double tenth(Matcher m, int group) {
    return Numbers.of(m.group(group), 0.1);
  }

  private static double hundredth(Matcher m, int group) {
    return m.group(group) == null ? Double.NaN : Integer.parseInt(m.group(group)) / 100.0;
  }

  private static int number(@Nullable String text) {
    return text == null ? 0 : Integer.parseInt(text);
  }
}
