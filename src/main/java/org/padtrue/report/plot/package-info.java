/**
 * The charts of a report, each as PNG and SVG.
 *
 * <p>XChart draws frames, axes and legends; data that it has no series for (arrows, strips, bars in
 * rows) are drawn by {@link org.padtrue.report.plot.Layer} on the same axes. Axes are labelled in
 * micrometres, degrees, or mm for the panel map. Colours are those of Okabe and Ito (2008), told
 * apart by every common kind of colour vision, and never the only sign. Imports analysis and below.
 * Entry class: {@link org.padtrue.report.plot.Charts}.
 */
@NullMarked
package org.padtrue.report.plot;

import org.jspecify.annotations.NullMarked;
