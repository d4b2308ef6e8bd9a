package org.padtrue.load.names;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.StatedName.Style;

/** Names that leave something open which only a person knows, or that no library of lands has. */
final class OpenNames {
  private static final String FAMILY = "([A-Z]*(?:QFN|DFN|SON|QFP|SSOP|LGA))";
  private static final Pattern SIZELESS =
      Pattern.compile("(?:" + FAMILY + "-?(\\d+)|(\\d+)-?" + FAMILY + ")");

  /** IPC-7251, naming of land patterns with holes (from memory), and words that libraries use. */
  private static final Pattern HOLES =
      Pattern.compile(
          "(?:RES|CAP|CAPP|DIO|IND|LED|XTAL|FUS)P?(?:AD|RD|ADV|RR)\\d.*|DIP-?\\d.*|TO-?(?:92|220|247)\\b.*"
              + "|(?:C|CP|R|D|L)_(?:DISC|RECT|RADIAL|AXIAL)_.*|(?:CAP|RES|DIODE|LED|IND|CRYSTAL)-TH_.*"
              + "|LED_D\\d.*|.*[-_]THT?(?:[-_].*)?"
              + "|PIN(?:HEADER|SOCKET)_\\dX\\d+_P[\\d.]+MM_(?:VERTICAL|HORIZONTAL)");

  private static final Pattern SEVERAL =
      Pattern.compile(
          "(?:.*[^A-Z])?(?:RGB|ARRAY|NETWORK|CMC|COMMON|BALUN|FILTER|[3-9]P(?:IN)?)(?:[^A-Z].*|MODE.*)?");

  private OpenNames() {}

  /**
   * A package and its number of leads, of "SENSOR_QFN16" or "TQFP-64"; null where none is there.
   */
  static @Nullable StatedName sizeless(String name) {
    for (String piece : pieces(name)) {
      Matcher m = SIZELESS.matcher(piece);
      if (m.matches()) {
        boolean front = m.group(1) != null;
        double x = Double.NaN;
        return new StatedName(
            Style.OUTLINE,
            front ? m.group(1) : m.group(4),
            Integer.parseInt(front ? m.group(2) : m.group(3)),
            -1,
            x,
            x,
            x,
            x,
            x,
            null,
            null,
            x,
            "");
      }
    }
    return null;
  }

  /** True for parts whose leads go through holes. */
  static boolean throughHole(String name) {
    return HOLES.matcher(NameReader.bare(name)).matches();
  }

  /** True for parts of a chip's or inductor's size that have more than two ends. */
  static boolean several(String name) {
    return SEVERAL.matcher(NameReader.bare(name)).matches();
  }

  /** What a name is put together from. */
  static String[] pieces(String name) {
    return NameReader.bare(name).split("[_()/,;\\s]+");
  }
}
