/**
 * The main job: from a job and its articles to one result that answers what to change.
 *
 * <p>{@link org.padtrue.firstarticle.FirstArticleAnalysis} runs it: {@code fitted} fits, {@code
 * next} says what the next panel will show, {@code decide} says what to change, {@code result}
 * holds what was found. Millimetres, degrees, ppm, mrad throughout; NaN means unknown and becomes
 * null in files. Imports fit, mixed, land, trim, panel and below.
 */
@NullMarked
package org.padtrue.firstarticle;

import org.jspecify.annotations.NullMarked;
