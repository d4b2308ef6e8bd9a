package org.padtrue.report.plot.ink;

import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import org.knowm.xchart.XYChart;

/**
 * A finished chart.
 *
 * @param name file name without ending, lower case with hyphens
 * @param group which charts stand side by side: "map", "target", "spread", "more"
 * @param title what it shows, a few words
 * @param caption how to read it, one or two sentences
 * @param width pixels
 * @param height pixels
 * @param files bytes of the file in each format that was asked for, in the order of the formats;
 *     not empty
 */
public record DrawnChart(
    String name,
    String group,
    String title,
    String caption,
    int width,
    int height,
    Map<ChartFormat, byte[]> files) {

  /** Draws a chart in the formats that are asked for, at least one. */
  public static DrawnChart of(
      String name,
      String group,
      String title,
      String caption,
      ChartFrame frame,
      Set<ChartFormat> formats) {
    XYChart chart = frame.finish();
    Map<ChartFormat, byte[]> files = new EnumMap<>(ChartFormat.class);
    for (ChartFormat f : formats) {
      files.put(f, f == ChartFormat.SVG ? Encoder.svg(chart) : Encoder.png(chart));
    }
    return new DrawnChart(name, group, title, caption, chart.getWidth(), chart.getHeight(), files);
  }

  /**
   * The file in one format.
   *
   * @throws IllegalArgumentException when it was not drawn in this format
   */
  public byte[] file(ChartFormat format) {
    byte[] file = files.get(format);
    if (file == null) {
      throw new IllegalArgumentException(name + " was not drawn as " + format);
    }
    return file;
  }
}
