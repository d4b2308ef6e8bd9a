package org.padtrue.report.plot.ink;

/**
 * A finished chart.
 *
 * @param name file name without ending, lower case with hyphens
 * @param group which charts stand side by side: "map", "target", "spread", "more"
 * @param title what it shows, a few words
 * @param caption how to read it, one or two sentences
 * @param width pixels
 * @param height pixels
 * @param png bytes of the PNG file
 * @param svg bytes of the SVG file
 */
@SuppressWarnings("ArrayRecordComponent") // written once, read once
public record DrawnChart(
    String name,
    String group,
    String title,
    String caption,
    int width,
    int height,
    byte[] png,
    byte[] svg) {}
