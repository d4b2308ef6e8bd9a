package org.padtrue.report.plot.ink;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** A kind of file that charts are drawn as. */
public enum ChartFormat {
  /** Lines and glyphs: sharp at any size; what pages show. */
  SVG,
  /** Pixels. */
  PNG;

  /** What is drawn when nobody says: what pages show, and nothing else. */
  public static Set<ChartFormat> shown() {
    return EnumSet.of(SVG);
  }

  /** Ending of a file's name, with the point. */
  public String ending() {
    return "." + name().toLowerCase(Locale.ROOT);
  }
}
