/**
 * Drawing on the axes of a chart: frames, layers, marks, colours, and charts to bytes.
 *
 * <p>XChart draws frames, axes and legends; data that it has no series for (arrows, strips, bars in
 * rows) are drawn by {@link org.padtrue.report.plot.ink.Layer} on the same axes. Colours are those
 * of Okabe and Ito (2008), told apart by every common kind of colour vision, and never the only
 * sign. Units are those of the axes. Knows no result.
 */
@NullMarked
package org.padtrue.report.plot.ink;

import org.jspecify.annotations.NullMarked;
