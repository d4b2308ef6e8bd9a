/**
 * What follows an analysis: whether it belongs to this job and file, what its trims add to every
 * row of a placement file, and how a second article stands against it.
 *
 * <p>mm and degrees; values to ADD along the list's own board axes. Entry classes: {@link
 * org.padtrue.apply.CorrectedList}, {@link org.padtrue.apply.SecondArticleCheck}. Imports report
 * (stored analyses, check.json), check, door, load, firstarticle.
 */
@NullMarked
package org.padtrue.apply;

import org.jspecify.annotations.NullMarked;
