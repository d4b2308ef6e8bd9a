package org.padtrue.report.plot.ink;

import java.nio.charset.StandardCharsets;

/**
 * Tidies an SVG: coordinates to a hundredth of a pixel, no reference to a document type elsewhere,
 * no indentation. The picture stays the same, the file becomes less than half as long.
 */
public final class Svg {
  private Svg() {}

  public static byte[] tidy(byte[] svg) {
    String s = new String(svg, StandardCharsets.UTF_8);
    StringBuilder b = new StringBuilder(s.length() / 2);
    // the XML declaration and the first tag keep their version numbers
    int svgTag = s.indexOf("<svg");
    int i = s.indexOf('>', svgTag) + 1;
    b.append(s, 0, s.indexOf("?>") + 2).append('\n').append(s, svgTag, i);
    while (i < s.length()) {
      char c = s.charAt(i);
      if (c == '.' && digit(s.charAt(i - 1))) {
        i = decimals(s, i, b);
      } else if (c == '\n') {
        b.append('\n');
        i++;
        while (i < s.length() && s.charAt(i) == ' ') {
          i++;
        }
      } else {
        b.append(c);
        i++;
      }
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  /** Cuts the decimals that start at a point; returns where the number ends. */
  private static int decimals(String s, int point, StringBuilder b) {
    int end = point + 1;
    while (end < s.length() && digit(s.charAt(end))) {
      end++;
    }
    boolean exponent = end < s.length() && (s.charAt(end) == 'E' || s.charAt(end) == 'e');
    int keep = exponent ? end : Math.min(end, point + 3);
    while (!exponent && keep > point && (s.charAt(keep - 1) == '0' || keep == point + 1)) {
      keep--;
    }
    b.append(s, point, keep);
    return end;
  }

  private static boolean digit(char c) {
    return c >= '0' && c <= '9';
  }
}
