/**
 * What follows an analysis: whether it belongs to this job and file, and what its trims add to
 * every row of a placement file.
 *
 * <p>mm and degrees; values to ADD along the list's own board axes. Entry class: {@link
 * org.padtrue.apply.Corrections}. Imports report.json (stored analyses), load, firstarticle.
 */
@NullMarked
package org.padtrue.apply;

import org.jspecify.annotations.NullMarked;
