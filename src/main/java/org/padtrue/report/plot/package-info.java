/**
 * The charts of a report, of a study of drift, of a plan.
 *
 * <p>Axes are labelled in micrometres, degrees, or mm for the panel map. Imports report.plot.ink
 * and the results of the rooms. Entry classes: {@link org.padtrue.report.plot.Charts}, {@link
 * org.padtrue.report.plot.DriftCharts}, {@link org.padtrue.report.plot.PlanCharts}.
 */
@NullMarked
package org.padtrue.report.plot;

import org.jspecify.annotations.NullMarked;
