/**
 * Reads what was measured: articles, their faults and circumstances, repeated readings, lists of
 * pictures.
 *
 * <p>Rows are matched to the job's placements, boards and fiducials; all problems are collected.
 * Leaves mm and degrees in the panel frame. Entry classes: {@link
 * org.padtrue.load.article.ArticleLoader}, {@link org.padtrue.load.article.ConditionsLoader},
 * {@link org.padtrue.load.article.GaugeRepeats}. Imports load.job, load.table, panel.
 */
@NullMarked
package org.padtrue.load.article;

import org.jspecify.annotations.NullMarked;
