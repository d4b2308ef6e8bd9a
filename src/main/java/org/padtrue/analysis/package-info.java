/**
 * Joins the rooms: from a job and its articles to one result that answers what to change.
 *
 * <p>Millimetres, degrees, ppm, mrad throughout; NaN means unknown and becomes null in files. Entry
 * classes: {@link org.padtrue.analysis.AnalysisOptions}, {@link
 * org.padtrue.analysis.FirstArticleResult}.
 */
@NullMarked
package org.padtrue.analysis;

import org.jspecify.annotations.NullMarked;
