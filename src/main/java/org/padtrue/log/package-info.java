/**
 * Joins the log and the drift: an article becomes a row of the log, the log becomes series.
 *
 * <p>What is logged of an article are unshrunk least-squares estimates with standard errors, by one
 * model for all articles ({@link org.padtrue.log.PlainFit}), so that a series means the same from
 * its first point to its last. mm, degrees, ppm, mrad. Imports firstarticle, history, drift and
 * below. Entry classes: {@link org.padtrue.log.Recording} and {@link org.padtrue.log.DriftStudy}.
 */
@NullMarked
package org.padtrue.log;

import org.jspecify.annotations.NullMarked;
