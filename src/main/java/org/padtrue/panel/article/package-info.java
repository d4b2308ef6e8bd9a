/**
 * What was measured: the article, its placements, fiducials and faults, and the same as columns for
 * the fits.
 *
 * <p>Canonical frame of {@code panel}: mm, degrees, x right, y up. NaN means not measured. Imports
 * panel and quantity. Entry classes: {@link org.padtrue.panel.article.Article}, {@link
 * org.padtrue.panel.article.DeviationTable}.
 */
@NullMarked
package org.padtrue.panel.article;

import org.jspecify.annotations.NullMarked;
